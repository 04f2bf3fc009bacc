package tracksoak.report.history;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;

/**
 * What is kept of one run of a drive for comparing: a few figures, not the whole record.
 *
 * @param id of the run
 * @param startedAt ISO-8601 instant in UTC
 * @param day the same in days since 1970-01-01T00:00:00Z
 * @param plan name of its plan
 * @param session name of its session
 * @param outcome its verdict, null if it was never judged
 * @param system the operating system it was made on, its version included
 * @param differences why it cannot be compared with the latest run; empty if it can
 * @param values its figures, each in its own unit; those it does not have are left out
 */
public record Past(
        String id,
        String startedAt,
        double day,
        String plan,
        String session,
        Verdict.@Nullable Outcome outcome,
        String system,
        List<String> differences,
        Map<Figure, Double> values) {

    private static final double DAY_S = 86_400;

    public Past {
        differences = List.copyOf(differences);
        values = Map.copyOf(values);
    }

    /** One run, held against another. */
    public static Past of(RunRecord run, RunRecord latest) {
        EnumMap<Figure, Double> values = new EnumMap<>(Figure.class);
        for (Figure figure : Figure.values()) {
            Double value = figure.of(run);
            if (value != null) {
                values.put(figure, value);
            }
        }
        Verdict verdict = run.verdict();
        return new Past(
                run.id(),
                run.startedAt(),
                day(Instant.parse(run.startedAt())),
                run.plan().name(),
                run.session().name(),
                verdict == null ? null : verdict.outcome(),
                run.host().os(),
                run.id().equals(latest.id()) ? List.of() : Difference.between(latest, run),
                values);
    }

    private static double day(Instant at) {
        return (at.getEpochSecond() + at.getNano() / 1e9) / DAY_S;
    }

    /** Whether its figures may be held against the latest run's. */
    public boolean comparable() {
        return differences.isEmpty();
    }

    /** The day it was made, {@code 2026-03-14} in UTC. */
    public String date() {
        return startedAt.substring(0, startedAt.indexOf('T'));
    }
}

package tracksoak.report.roster.web.page;

import java.util.Objects;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;

/**
 * The few figures of a record that a drive's page shows over time.
 *
 * @param floorBytesPerSecond lowest floor of its fills in B/s, null where none was filled
 * @param demandBytesPerSecond demand of its session in B/s
 * @param peakBacklogMs largest backlog of its takes in ms of audio, null where none was made
 * @param bufferMs the recorder's buffer in ms
 * @param smallestMargin smallest margin of its criteria, null where none has one
 */
record RunFigures(
        @Nullable Double floorBytesPerSecond,
        double demandBytesPerSecond,
        @Nullable Double peakBacklogMs,
        double bufferMs,
        @Nullable Double smallestMargin) {

    private static final double MS_PER_S = 1_000;

    static RunFigures of(RunRecord record) {
        OptionalDouble floor = record.each(PhaseFacts::fill)
                .mapToDouble(FillFacts::floorBytesPerSecond)
                .min();
        OptionalDouble backlog = record.phases().stream()
                .filter(phase -> phase.streams() != null && phase.fill() == null)
                .mapToDouble(PhaseFacts::peakBacklogMs)
                .max();
        Verdict verdict = record.verdict();
        OptionalDouble margin = verdict == null
                ? OptionalDouble.empty()
                : verdict.criteria().stream()
                        .map(Criterion::margin)
                        .filter(Objects::nonNull)
                        .mapToDouble(Double::doubleValue)
                        .min();
        return new RunFigures(
                orNull(floor),
                record.session().bytesPerSecond(),
                orNull(backlog),
                record.session().bufferS() * MS_PER_S,
                orNull(margin));
    }

    private static @Nullable Double orNull(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }
}

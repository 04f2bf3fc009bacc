package tracksoak.report.history;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.verdict.Judge;

/** Runs of one drive on given days. Tests only. */
public final class Histories {

    private static final Instant FIRST = Instant.parse("2025-05-14T18:00:00Z");

    private Histories() {}

    /** A sound-check {@code day} days after the first, with this floor in B/s. */
    public static RunSketch run(double day, double floor) {
        RunSketch run = RunSketch.good();
        int number = (int) Math.round(day * 10) + 1;
        run.id = String.format(java.util.Locale.ROOT, "017f22e2-79b0-7cc3-98c4-%012x", number);
        run.startedAt = FIRST.plus(Math.round(day * 86_400), ChronoUnit.SECONDS).toString();
        run.phases.set(1, PhaseSketch.fill(2000, floor));
        return run;
    }

    /** Runs on given days with given floors in B/s. */
    public static List<RunRecord> floors(double[] days, double[] floors) {
        return runs(days, floors, run -> {});
    }

    static List<RunRecord> runs(double[] days, double[] floors, Consumer<RunSketch> also) {
        List<RunRecord> runs = new ArrayList<>();
        for (int i = 0; i < days.length; i++) {
            RunSketch run = run(days[i], floors[i]);
            also.accept(run);
            RunRecord facts = run.record();
            runs.add(facts.withVerdict(Judge.judge(facts)));
        }
        return runs;
    }

    /** The history that the last of them sees. */
    public static DriveHistory seenByLast(List<RunRecord> runs) {
        RunRecord latest = runs.get(runs.size() - 1);
        return DriveHistory.of(
                latest, runs.stream().map(run -> Past.of(run, latest)).toList(), List.of());
    }

    static void peak(RunSketch run, double ms) {
        run.phases.stream().filter(phase -> phase.kind == PhaseKind.TAKE).forEach(take -> take.peakBacklogMs = ms);
    }
}

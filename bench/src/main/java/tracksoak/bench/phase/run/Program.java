package tracksoak.bench.phase.run;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/**
 * Lays out the steps of a run from its plan. A new kind of step is added here, in its place, and nowhere else; the passes
 * of all files of a run must differ.
 */
final class Program {

    private static final int TAKE_BEFORE = 1;
    private static final int FILL = 2;
    private static final int TAKE_AFTER = 3;
    private static final int COPY = 4;
    private static final int MIX = 5;
    private static final int FILL_AGAIN = 6;

    private final Bench bench;
    private final Budget budget;
    private final List<Step> steps = new ArrayList<>();

    private Program(Bench bench, Budget budget) {
        this.bench = bench;
        this.budget = budget;
    }

    /** The steps of the plan that was asked for. */
    static List<Step> of(Bench bench, Budget budget) {
        Program program = new Program(bench, budget);
        program.layOut(bench.request.plan());
        return program.steps;
    }

    private void layOut(Plan plan) {
        for (Keepsake keepsake : bench.request.extras().keepsakes()) {
            steps.add(new KeepsakeStep(bench, keepsake));
        }
        boolean probes = plan.readsBack() && !plan.wholeSpace();
        Probes probing = new Probes(bench);
        if (probes) {
            steps.add(new SimpleStep(PhaseKind.PROBES, ahead -> 0, probing::lay));
        }
        if (plan.takeBeforeS() > 0) {
            take("take-1", TAKE_BEFORE, plan.takeBeforeS(), plan.takeBeforeS());
        }
        if (plan.fillCapS() > 0) {
            steps.add(new FillPhase(bench, "fill", FILL, budget));
        }
        if (plan.fillCapS() > 0 && plan.takeAfterS() + plan.copyS() > 0) {
            readBack();
            clear(plan.copyS() > 0 ? PhaseKind.COPY : plan.refillCapS() > 0 ? PhaseKind.FILL : PhaseKind.TAKE);
        }
        if (plan.refillCapS() > 0) {
            steps.add(FillPhase.again(bench, "fill-again", FILL_AGAIN, budget));
            clear(PhaseKind.TAKE);
        }
        if (plan.takeAfterS() > 0) {
            take("take-2", TAKE_AFTER, plan.takeAfterS(), plan.takeMostS());
        }
        if (plan.copyS() > 0) {
            steps.add(new CopyPhase(bench, "copy", COPY, budget));
        }
        if (plan.readsBack()) {
            readBack();
        }
        if (probes) {
            steps.add(new SimpleStep(PhaseKind.PROBES, ahead -> 0, probing::read));
        }
        if (plan.playbackS() > 0) {
            playback(plan.copyS() > 0 ? COPY : TAKE_AFTER, plan.playbackS());
        }
    }

    private void take(String label, int pass, double seconds, double mostS) {
        TakePhase take = bench.request.plan().wholeSpace()
                ? TakePhase.inRounds(bench, label, pass, seconds, budget.fillBytes())
                : new TakePhase(bench, label, pass, seconds, mostS);
        boolean first = steps.stream().noneMatch(TakePhase.class::isInstance);
        steps.add(first ? take.first() : take);
        close(take::files, take::close);
    }

    private void playback(int pass, double seconds) {
        PlaybackStep playback = new PlaybackStep(bench, pass, seconds, MIX);
        steps.add(playback);
        if (!bench.request.session().mixStreams().isEmpty()) {
            close(playback::mixFiles, playback::close);
            readBack();
        }
    }

    /** From "stop" to "safe to unplug", for what another step has opened. */
    private void close(Supplier<StreamFiles> files, Supplier<PhaseFacts> work) {
        steps.add(new SimpleStep(PhaseKind.CLOSE, ahead -> ahead.pace.closeS(), () -> {
            PhaseFacts facts = work.get();
            if (facts.fault() == null) {
                bench.onDrive.closed(files.get());
            }
            return facts;
        }));
    }

    /** Reads every file that was not read back yet. */
    private void readBack() {
        steps.add(new SimpleStep(PhaseKind.READ_BACK, ahead -> ahead.pace.secondsToRead(ahead.readsAll()), () -> {
            PhaseFacts facts = new ReadBackPhase(bench, bench.onDrive.unread()).read();
            bench.onDrive.wasRead();
            return facts;
        }));
    }

    /** Deletes the run's own files to make room for what comes next. Leaves a phase in the record only if the drive fails. */
    private void clear(PhaseKind before) {
        steps.add(new SimpleStep(
                before,
                ahead -> {
                    // it is read back no more
                    ahead.readsAll();
                    return 0;
                },
                () -> cleared(before)));
    }

    private @Nullable PhaseFacts cleared(PhaseKind before) {
        PhaseFacts failed = bench.ask(before, stop -> {
            for (WrittenFile file : bench.onDrive.all()) {
                bench.drive.delete(file.name());
            }
            bench.drive.syncFolder();
        });
        if (failed == null) {
            bench.onDrive.cleared();
        }
        return failed;
    }
}

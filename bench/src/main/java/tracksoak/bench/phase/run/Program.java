package tracksoak.bench.phase.run;

import java.util.ArrayList;
import java.util.List;
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
    private static final int FEEL = 6;

    private final Bench bench;
    private final FilesOnDrive onDrive;
    private final Budget budget;
    private final List<Step> steps = new ArrayList<>();

    private Program(Bench bench, FilesOnDrive onDrive, Budget budget) {
        this.bench = bench;
        this.onDrive = onDrive;
        this.budget = budget;
    }

    /** The steps of the plan that was asked for. */
    static List<Step> of(Bench bench, FilesOnDrive onDrive, Budget budget) {
        Program program = new Program(bench, onDrive, budget);
        program.layOut(bench.request.plan());
        return program.steps;
    }

    private void layOut(Plan plan) {
        for (Keepsake keepsake : bench.request.extras().keepsakes()) {
            steps.add(new KeepsakeStep(bench, keepsake));
        }
        if (FeelStep.isPartOf(plan)) {
            steps.add(new FeelStep(bench, first(plan), FEEL));
        }
        if (plan.takeBeforeS() > 0) {
            take("take-1", TAKE_BEFORE, plan.takeBeforeS());
        }
        if (plan.fillCapS() > 0) {
            steps.add(new FillStep(bench, onDrive, "fill", FILL, budget));
        }
        if (plan.wholeSpace()) {
            steps.add(new ReadBackStep(bench, onDrive));
            steps.add(new ClearStep(bench, onDrive, plan.copyS() > 0 ? PhaseKind.COPY : PhaseKind.TAKE));
        }
        if (plan.takeAfterS() > 0) {
            take("take-2", TAKE_AFTER, plan.takeAfterS());
        }
        if (plan.copyS() > 0) {
            steps.add(new CopyStep(bench, onDrive, COPY, budget));
        }
        if (plan.readsBack()) {
            steps.add(new ReadBackStep(bench, onDrive));
        }
        if (plan.playbackS() > 0) {
            playback(plan.copyS() > 0 ? COPY : TAKE_AFTER, plan.playbackS());
        }
    }

    private static PhaseKind first(Plan plan) {
        return plan.takeBeforeS() > 0
                ? PhaseKind.TAKE
                : plan.fillCapS() > 0 ? PhaseKind.FILL : plan.copyS() > 0 ? PhaseKind.COPY : PhaseKind.TAKE;
    }

    private void playback(int pass, double seconds) {
        PlaybackStep playback = new PlaybackStep(bench, onDrive, pass, seconds, MIX);
        steps.add(playback);
        if (!bench.request.session().mixStreams().isEmpty()) {
            steps.add(new CloseStep(onDrive, playback::mixFiles, playback::close));
            steps.add(new ReadBackStep(bench, onDrive));
        }
    }

    private Plan plan() {
        return bench.request.plan();
    }

    private void take(String label, int pass, double seconds) {
        TakePhase take = new TakePhase(bench, label, pass, seconds, plan().wholeSpace());
        double room = plan().wholeSpace() ? (double) budget.fillBytes() : Double.MAX_VALUE;
        steps.add(new TakeStep(bench, onDrive, take, seconds, room));
        steps.add(new CloseStep(onDrive, take::files, take::close));
    }
}

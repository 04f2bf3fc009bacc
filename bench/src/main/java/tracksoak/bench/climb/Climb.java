package tracksoak.bench.climb;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.base.EpochClock;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.verdict.FreeRoom;

/** One climb on one drive: fills it, then does what {@link Search} says until that is at its end. One thread. */
public final class Climb {

    /** Looks at one rung that may come to nothing for a reason that can pass. */
    private static final int PATIENCE = 3;

    private final ClimbOrder order;
    private final ClimbRunner runner;
    private final EpochClock epoch;
    private final Listener listener;
    private final String startedAt;
    private final List<ClimbStep> steps = new ArrayList<>();
    private final List<Observation> log = new ArrayList<>();
    /** Those in which the drive stopped answering for good. */
    private final List<ClimbStep> cutOff = new ArrayList<>();

    private @Nullable PhaseFacts fill;
    private @Nullable IoMode ioMode;
    private RunState state = RunState.RUNNING;
    private String stateReason = "";
    private @Nullable ClimbStep stoppedAt;
    private boolean stopped;

    /** Hears how a climb is getting on, from its thread. */
    public interface Listener {

        /**
         * A run is about to begin.
         *
         * @param value tracks or Hz
         * @param left what is still ahead with this run
         */
        void begins(ClimbRunner.Purpose purpose, int value, Search.Left left);

        /** The record so far: at the start, after each run and at the end. */
        void snapshot(ClimbRecord soFar);
    }

    public Climb(ClimbOrder order, ClimbRunner runner, EpochClock epoch, Listener listener) {
        this.order = order;
        this.runner = runner;
        this.epoch = epoch;
        this.listener = listener;
        this.startedAt = now();
    }

    /** Does the whole climb. Never throws for what the drive does. */
    public ClimbRecord call() {
        listener.snapshot(record(null, null));
        Search search = new Search(rules(1));
        int value = value(order.ladder().within((double) order.base().bytesPerSecond()));
        listener.begins(ClimbRunner.Purpose.FILL, value, search.left(log));
        RunRecord filled =
                runner.run(ClimbRunner.Purpose.FILL, value, order.fillSession(), Plan.climbFill(order.fillCapS()));
        boolean on = goesOn(filled);
        fill = phase(filled, PhaseKind.FILL);
        ioMode = filled.method().ioMode();
        listener.snapshot(record(null, null));
        search = new Search(rules(likely()));
        while (on && search.next(log) instanceof Decision.Look look) {
            on = look(look, search);
            listener.snapshot(record(null, null));
        }
        if (state == RunState.RUNNING) {
            state = RunState.COMPLETE;
        }
        ClimbResult result =
                ClimbConclusion.of(order, log, steps, cutOff, search.next(log), state, stateReason, stopped, stoppedAt);
        ClimbRecord done = record(now(), result);
        listener.snapshot(done);
        return done;
    }

    private boolean look(Decision.Look look, Search search) {
        ClimbRunner.Purpose purpose =
                look.kind() == Observation.Kind.TAKE ? ClimbRunner.Purpose.TAKE : ClimbRunner.Purpose.CHECK;
        int value = value(look.rung());
        listener.begins(purpose, value, search.left(log));
        Plan plan = look.kind() == Observation.Kind.TAKE ? Plan.climbTake(order.shortTakeS()) : order.check();
        RunRecord run = runner.run(purpose, value, order.ladder().session(look.rung()), plan);
        ClimbStep step =
                look.kind() == Observation.Kind.TAKE ? Judged.take(run, fill, value) : Judged.check(run, value);
        boolean on = goesOn(run);
        if (Judged.stopped(run)) {
            cutOff.add(step);
        }
        if (state == RunState.RUNNING || state == RunState.BROKEN) {
            steps.add(step);
        }
        if (!on) {
            stoppedAt = step;
        } else {
            log.add(new Observation(look.kind(), look.rung(), step.carried(), step.kept(), Judged.lasting(step, run)));
        }
        return on;
    }

    /** False where nothing more can be asked of the drive, or a person stopped it. */
    private boolean goesOn(RunRecord run) {
        if (run.state() == RunState.INTERRUPTED || run.state() == RunState.BROKEN) {
            state = run.state();
            stateReason = run.stateReason();
            return false;
        }
        stopped = Judged.stopped(run) && !runner.renews();
        return !stopped;
    }

    private Rules rules(int start) {
        return new Rules(
                1,
                order.ladder().size(),
                start,
                start(1),
                order.askLoss(),
                order.proveAbove(),
                order.ladder().kind() == Ladder.Kind.SAMPLE_RATE,
                PATIENCE);
    }

    /** The highest rung that the floor of the fill carries with the margin asked, and for which there is room. */
    private int likely() {
        int rung = start(order.base().margins().rate());
        while (rung > 1 && !FreeRoom.fits(order.ladder().session(rung), order.drive(), 0)) {
            rung--;
        }
        return rung;
    }

    /** The highest rung that the floor of the fill carries with a margin. */
    private int start(double margin) {
        FillFacts found = fill == null ? null : fill.fill();
        double floor = found == null ? order.base().bytesPerSecond() * margin : found.floorBytesPerSecond();
        return order.ladder().within(floor / margin);
    }

    private int value(int rung) {
        return order.ladder().value(rung);
    }

    private static @Nullable PhaseFacts phase(RunRecord run, PhaseKind kind) {
        return run.phases().stream()
                .filter(phase -> phase.kind() == kind)
                .findFirst()
                .orElse(null);
    }

    private ClimbRecord record(@Nullable String endedAt, @Nullable ClimbResult result) {
        return new ClimbRecord(
                ClimbRecord.SCHEMA,
                order.id(),
                order.tool(),
                startedAt,
                endedAt,
                state,
                stateReason,
                new Seed(order.seed()),
                order.base(),
                order.ladderFacts(),
                order.planFacts(),
                order.drive(),
                order.host(),
                ioMode,
                fill == null ? null : fill.fill(),
                steps,
                result);
    }

    private String now() {
        return Instant.ofEpochMilli(epoch.epochMillis()).toString();
    }
}

package tracksoak.bench.tray;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.job.ClimbLook;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.drill.DrillListener;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Traffic;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.Judge;

/**
 * Tells others how the run of this process gets on, by the file of its state, and hears from them whether it is to stop. What it
 * hears it passes on to another listener. Whatever goes wrong with the file changes nothing for the run. One thread at a time.
 */
public final class LiveRun implements JobListener {

    private static final long LEAST_BETWEEN_NS = 100_000_000;
    private static final long PIECE_MS = 500;
    private static final int MOST_PIECES = 240;
    private static final int MOST_NOTES = 40;

    private final RunShelf.OwnState file;
    private final JobListener also;
    private final EpochClock epoch;
    private final NanoClock clock;
    private final OffSwitch off;
    private final Deque<Double> backlog = new ArrayDeque<>();
    private final List<String> notes = new ArrayList<>();
    private LiveState.Stage stage = LiveState.Stage.WORKS;
    private String waitsFor = "";
    private long workedMs;
    private Supplier<String> awake = () -> "";
    private @Nullable Progress progress;
    private @Nullable PhaseKind phase;
    private int step;
    private long pieceNs;
    private long saidNs;
    private boolean said;
    private String outcome = "";
    private String sentence = "";
    private String todo = "";
    private boolean disturbed;
    private boolean failedAlone;
    private @Nullable Turn turn;
    private String rosterDrive = "";

    /**
     * @param run the run's folder on the {@link RunShelf}
     * @param also hears everything, too
     * @param off ends the run when somebody asks for it
     */
    public LiveRun(Path run, JobListener also, OffSwitch off, EpochClock epoch, NanoClock clock) {
        this.file = new RunShelf.OwnState(run);
        this.also = also;
        this.off = off;
        this.epoch = epoch;
        this.clock = clock;
    }

    /** What was asked of it; null if that cannot be read. */
    public @Nullable RunOrder order() {
        return file.order();
    }

    /** Whether somebody asked it to end; ends it then. */
    public boolean toStop() {
        if (file.toStop()) {
            off.cancel();
        }
        return off.cancelled();
    }

    /** It waits for its turn. */
    public void waits(String forWhat) {
        stage = LiveState.Stage.WAITS;
        waitsFor = forWhat;
        say();
    }

    /**
     * It goes to work.
     *
     * @param keptAwake how the computer is kept awake at the moment, empty if it is not
     */
    public void works(Supplier<String> keptAwake) {
        stage = LiveState.Stage.WORKS;
        workedMs = workedMs == 0 ? epoch.epochMillis() : workedMs;
        waitsFor = "";
        awake = keptAwake;
        say();
    }

    /** From now on each of its steps waits until the turn allows it. */
    public void keepsTo(Turn itsTurn) {
        turn = itsTurn;
    }

    /**
     * It came to its end.
     *
     * @param advice what to do now
     */
    public void over(RunRecord record, String advice) {
        todo = advice;
        Verdict verdict = record.verdict();
        outcome = verdict == null ? "" : verdict.outcome().words();
        sentence = verdict == null ? "" : verdict.sentence();
        if (verdict != null) {
            // the advice speaks of them
            notes.addAll(0, verdict.reasons());
        }
        disturbed = Judge.disturbed(record);
        failedAlone = Judge.failedAlone(record);
        say();
    }

    /** It could not be done, or not to its end. */
    public void failed(String what, String whatToDo) {
        sentence = what.replace('\n', ' ');
        todo = whatToDo;
    }

    /** The process ends now. */
    public void ends() {
        stage = LiveState.Stage.OVER;
        say();
    }

    @Override
    public void note(String text) {
        add(text);
        also.note(text);
    }

    @Override
    public void trouble(Problem problem) {
        add(problem.getMessage());
        also.trouble(problem);
    }

    private void add(@Nullable String text) {
        if (text != null && notes.size() < MOST_NOTES) {
            notes.add(text);
        }
        say();
    }

    @Override
    public void before(Traffic traffic) {
        Turn mine = turn;
        if (mine != null && mine.becomes(traffic, this::toStop, this::waits) && stage == LiveState.Stage.WAITS) {
            works(awake);
        }
        also.before(traffic);
    }

    @Override
    public void progress(Progress now) {
        long nowNs = clock.nanoTime();
        boolean next = now.phase() != phase || now.step() != step;
        if (next) {
            backlog.clear();
            phase = now.phase();
            step = now.step();
            pieceNs = nowNs;
        }
        if (now.elapsedS() >= 0) {
            // before "record" nothing is owed
            piece(now.backlogMs(), nowNs);
        }
        progress = now;
        if (next || !said || nowNs - saidNs >= LEAST_BETWEEN_NS) {
            toStop();
            say();
        }
        also.progress(now);
    }

    private void piece(double backlogMs, long nowNs) {
        if (backlog.isEmpty() || nowNs - pieceNs >= PIECE_MS * 1_000_000) {
            pieceNs = nowNs;
            backlog.addLast(backlogMs);
            if (backlog.size() > MOST_PIECES) {
                backlog.removeFirst();
            }
        } else {
            backlog.addLast(Math.max(backlog.removeLast(), backlogMs));
        }
    }

    private void say() {
        said = true;
        saidNs = clock.nanoTime();
        ProcessHandle me = ProcessHandle.current();
        try {
            file.say(new LiveState(
                    LiveState.SCHEMA,
                    me.pid(),
                    me.info().startInstant().map(Instant::toEpochMilli).orElse(0L),
                    epoch.epochMillis(),
                    workedMs,
                    stage,
                    waitsFor,
                    awake.get(),
                    progress,
                    List.copyOf(backlog),
                    PIECE_MS,
                    notes,
                    outcome,
                    sentence,
                    todo,
                    disturbed,
                    failedAlone,
                    rosterDrive));
        } catch (IOException | RuntimeException notSaid) {
            said = false; // watching never costs a run anything: the next figures are said again
        }
    }

    @Override
    public void idle() {
        also.idle();
    }

    @Override
    public void driveHangs() {
        also.driveHangs();
    }

    @Override
    public void waitsForDrive(@Nullable Path place) {
        waits("a drive to be plugged in");
        also.waitsForDrive(place);
    }

    @Override
    public void driveMounted(Path place) {
        works(awake);
        also.driveMounted(place);
    }

    @Override
    public void repeats(RunRecord last, Plan plan, Session session) {
        also.repeats(last, plan, session);
    }

    @Override
    public void keepsakeLeft(Path folder, long bytes, int files, long askedBytes) {
        also.keepsakeLeft(folder, bytes, files, askedBytes);
    }

    @Override
    public void entered(String drive, String label) {
        rosterDrive = drive;
        say();
        also.entered(drive, label);
    }

    @Override
    public void tagToSettle(String cost, UnaryOperator<String> todo) {
        add(cost);
        also.tagToSettle(cost, todo);
    }

    @Override
    public void notEntered(String why) {
        add("the run is not in the roster: " + why);
        also.notEntered(why);
    }

    @Override
    public void climbs(ClimbLook look) {
        also.climbs(look);
    }

    @Override
    public void drills(DrillListener.Stage now) {
        also.drills(now);
    }
}

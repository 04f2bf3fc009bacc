package tracksoak.bench.phase.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.phase.run.Bench;
import tracksoak.bench.phase.run.ReadOrigin;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.phase.run.TakePhase;
import tracksoak.bench.phase.run.Target;
import tracksoak.bench.phase.run.WatchedExecutor;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.phase.timeleft.RecentRate;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts.Origin;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillPull;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillRecord.State;
import tracksoak.report.record.facts.drill.DrillReturn;
import tracksoak.report.record.facts.drill.DrillStop;
import tracksoak.report.record.facts.drill.DrillTrack;
import tracksoak.report.verdict.DrillJudge;

/**
 * One unplug drill: a short take that is stopped and closed, a take during which the drive is pulled, and a look at what
 * survived of both once the drive is back. Like {@link Run} it never touches a real drive on the thread that calls it.
 */
public final class Drill {

    private static final long PROGRESS_NS = TimeUnit.MILLISECONDS.toNanos(200);
    private static final long LOOK_NS = TimeUnit.MILLISECONDS.toNanos(250);

    /** How long the system may take to notice that a device is gone, in ns. */
    private static final long NOTICE_NS = TimeUnit.SECONDS.toNanos(5);

    private static final int STOPPED = 1;
    private static final int PULLED = 2;
    private static final int STEPS = 4;

    private final DrillRequest request;
    private final DrillPort port;
    private final Drive drive;
    private final DriveFacts driveFacts;
    private final HostFacts hostFacts;
    private final NanoClock clock;
    private final Waiter waiter;
    private final boolean virtual;
    private final DrillListener listener;
    private final WriteJournal journal;
    private final Bench bench;
    private final String startedAt;
    private final List<WrittenFile> written = new ArrayList<>();
    private int step = 1;
    private boolean pulling;
    private boolean asked;
    private double goneAtS = Double.POSITIVE_INFINITY;
    private @Nullable PhaseFacts atGone;
    private long lastProgressNs;
    private RecentRate rate = new RecentRate();
    private @Nullable DrillStop stop;
    private @Nullable DrillPull pull;
    private @Nullable DrillReturn back;
    private List<DrillTrack> tracks = List.of();
    private List<DrillFile> files = List.of();
    private volatile boolean cancelled;

    /**
     * Prepares a drill; nothing is touched before {@link #call}.
     *
     * @throws IllegalArgumentException if the session's chunk, rounded up as the drive wants it, exceeds its buffer
     */
    public Drill(DrillRequest request, Target target, DrillPort port, HostFacts hostFacts, DrillListener listener) {
        this.request = request;
        this.port = port;
        this.drive = target.drive();
        this.driveFacts = target.facts();
        this.hostFacts = hostFacts;
        this.clock = target.clock();
        this.waiter = target.waiter();
        this.virtual = target.virtual();
        this.listener = listener;
        this.journal = new WriteJournal(drive, clock);
        RunRequest run = new RunRequest(
                request.runId(),
                request.tool(),
                request.session(),
                DrillRequest.plan(request.stoppedS(), request.pullAfterS(), request.pullLimitS()),
                request.seed(),
                request.hangLimitS(),
                request.reserveBytes());
        this.bench = new Bench(run, journal, target, () -> cancelled, this::tick);
        this.startedAt = bench.now();
        bench.table(1);
    }

    /** Does the whole drill. Never throws for what the drive does. */
    public DrillRecord call() {
        tell(DrillListener.Stage.STOP_FIRST);
        Ending ending = stopFirst();
        if (ending == null) {
            tell(DrillListener.Stage.RECORDING);
            step++;
            rate = new RecentRate();
            ending = untilPulled();
        }
        if (ending == null) {
            tell(DrillListener.Stage.GONE);
            ending = untilBack();
        }
        Ending end = ending == null ? new Ending(State.COMPLETE, "") : ending;
        DrillRecord done = record(end.state(), end.why(), bench.now());
        if (end.state() == State.COMPLETE) {
            done = done.withFindings(DrillJudge.of(done));
        }
        listener.snapshot(done);
        return done;
    }

    /** Asks the drill to end soon, from any thread. */
    public void cancel() {
        cancelled = true;
    }

    /** True if a call to the drive never came back, so that it must not be touched any more. */
    public boolean driveHangs() {
        return bench.hangs();
    }

    private record Ending(State state, String why) {}

    private void tell(DrillListener.Stage stage) {
        listener.snapshot(record(State.RUNNING, "", null));
        listener.stage(stage);
    }

    private @Nullable Ending stopFirst() {
        TakePhase take = new TakePhase(bench, "stopped", STOPPED, request.stoppedS());
        PhaseFacts taken = take.take();
        PhaseFacts closed = taken.fault() == null ? take.close() : taken;
        written.addAll(take.files().written());
        Fault fault = closed.fault();
        if (fault != null) {
            boolean went = !cancelled && isGone();
            letGo(take);
            return failed(
                    fault,
                    went ? "the drive was pulled before it was asked for; run the drill again" : notPulled(fault));
        }
        stop = new DrillStop(taken.seconds(), closed.seconds() * 1e3);
        return null;
    }

    private @Nullable Ending untilPulled() {
        double lengthS = request.pullAfterS() + request.pullLimitS();
        TakePhase take = new TakePhase(bench, "pulled", PULLED, lengthS);
        if (virtual) {
            port.pullAt(clock.nanoTime() + Math.round(request.pullAfterS() * 1e9));
        }
        pulling = true;
        PhaseFacts taken = take.take();
        pulling = false;
        boolean went = taken.fault() != null && !cancelled && isGone();
        letGo(take);
        List<WrittenFile> ours = take.files().written();
        written.addAll(ours);
        if (taken.fault() == null) {
            return new Ending(State.NOT_PULLED, "the drive was still there when the take ended");
        }
        if (!went) {
            return failed(taken.fault(), notPulled(taken.fault()));
        }
        double atS = Math.min(goneAtS, taken.seconds());
        PhaseFacts known = atGone == null ? taken : atGone;
        StreamTable table = bench.table(lengthS);
        tracks = DrillTracks.atPull(
                table,
                Math.round(atS * 1e9),
                ours,
                journal,
                known.streams() == null ? List.of() : known.streams().lostMs());
        double lastS = Math.max(0, (journal.lastDoneNs() - take.startNs()) / 1e9);
        pull = new DrillPull(atS, Math.min(lastS, atS), request.session().flushS(), taken.fault());
        return null;
    }

    private static Ending failed(Fault fault, String why) {
        return fault.kind().byAPerson()
                ? new Ending(State.INTERRUPTED, "stopped by you")
                : new Ending(State.FAILED, why);
    }

    private static String notPulled(Fault fault) {
        return "the drive was not pulled, but failed: "
                + fault.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ') + " at " + told(fault);
    }

    private static String told(Fault fault) {
        return fault.what() + " (" + fault.message() + ")";
    }

    private boolean isGone() {
        Presence presence = settled(drive);
        return presence == Presence.GONE || (presence == Presence.UNKNOWN && port.unreachable());
    }

    private Presence settled(Drive asked) {
        long until = clock.nanoTime() + NOTICE_NS;
        Presence presence = asked.presence();
        while (presence != Presence.GONE && clock.nanoTime() < until) {
            waiter.waitUntil(clock.nanoTime() + LOOK_NS);
            presence = asked.presence();
        }
        return presence;
    }

    private void letGo(TakePhase take) {
        if (!bench.hangs()) {
            bench.executor.work(List.of(ignored -> take.files().letGo()), () -> {});
        }
    }

    private @Nullable Ending untilBack() {
        tell(DrillListener.Stage.PLUG_IN);
        long fromNs = clock.nanoTime();
        long untilNs = fromNs + Math.round(request.waitS() * 1e9);
        Optional<DrillPort.Back> found = port.look();
        while (found.isEmpty() && !cancelled && clock.nanoTime() < untilNs) {
            waiter.waitUntil(clock.nanoTime() + LOOK_NS);
            found = port.look();
        }
        if (found.isEmpty()) {
            return cancelled
                    ? new Ending(State.INTERRUPTED, "stopped by you")
                    : new Ending(
                            State.NOT_BACK,
                            "no mounted drive holds the drill's folder: the drive was not plugged in"
                                    + " and mounted in time, or its file system lost the whole folder");
        }
        step = STEPS;
        rate = new RecentRate();
        tell(DrillListener.Stage.READING);
        return read(found.get(), (clock.nanoTime() - fromNs) / 1e9);
    }

    private @Nullable Ending read(DrillPort.Back now, double waitedS) {
        Drive watched = bench.watched(now.drive());
        Survivors survivors = new Survivors(watched, bench.runNumber, clock);
        Optional<Counters> before = watched.counters();
        long startNs = clock.nanoTime();
        WatchedExecutor.Outcome outcome = bench.executor.work(
                List.of(ended -> survivors.read(written, ended)), () -> showReading(survivors, startNs));
        Origin origin = origin(before, outcome.stuck() == null ? watched.counters() : Optional.empty(), survivors);
        back = new DrillReturn(waitedS, now.node(), now.mount(), now.folder(), now.readOnly(), now.marker(), origin);
        Fault fault = bench.fault(outcome, startNs, survivors.bytes());
        if (fault != null) {
            // the fault's kind is of no use here: it tells whether the drive of before the pull is there
            boolean again = !cancelled && settled(watched) == Presence.GONE;
            return failed(
                    fault,
                    again
                            ? "the drive was pulled again before all that survived was read; run the drill again"
                            : "what survived could not be read, the drive failed at " + told(fault));
        }
        tracks = DrillTracks.read(tracks, PULLED, survivors.found());
        files = DrillTracks.files(bench.table(1), STOPPED, survivors.found());
        return null;
    }

    private Origin origin(Optional<Counters> before, Optional<Counters> after, Survivors survivors) {
        Long read = before.flatMap(from -> after.map(to -> to.bytesRead() - from.bytesRead()))
                .orElse(null);
        return ReadOrigin.of(drive.ioMode(), read, survivors.bytes());
    }

    private void tick(Supplier<Bench.Now> now, Supplier<PhaseFacts> soFar) {
        if (pulling) {
            Bench.Now is = now.get();
            if (!asked && is.elapsedS() >= request.pullAfterS()) {
                asked = true;
                listener.stage(DrillListener.Stage.PULL_NOW);
            }
            if (atGone == null && drive.presence() == Presence.GONE) {
                goneAtS = is.elapsedS();
                atGone = soFar.get();
            }
        }
        long nowNs = clock.nanoTime();
        if (nowNs - lastProgressNs >= PROGRESS_NS) {
            lastProgressNs = nowNs;
            Bench.Now is = now.get();
            double left = pulling ? Math.max(0, request.pullAfterS() - is.elapsedS()) : is.leftS();
            show(PhaseKind.TAKE, left, is);
        }
    }

    private void showReading(Survivors survivors, long startNs) {
        long nowNs = clock.nanoTime();
        if (nowNs - lastProgressNs >= PROGRESS_NS) {
            lastProgressNs = nowNs;
            double elapsed = (nowNs - startNs) / 1e9;
            long all = written.stream().mapToLong(WrittenFile::dataBytes).sum();
            double mean = elapsed <= 0 ? 0 : survivors.bytes() / elapsed;
            double left = mean <= 0 ? -1 : Math.max(0, all - survivors.bytes()) / mean;
            Bench.Now is =
                    new Bench.Now(elapsed, left, elapsed, 0, 0, 0, survivors.worstNs() / 1e6, 0, survivors.bytes());
            show(PhaseKind.READ_BACK, left, is);
        }
    }

    private void show(PhaseKind kind, double leftS, Bench.Now is) {
        int all = request.session().tracks();
        listener.progress(new Progress(
                kind,
                step,
                STEPS,
                is.elapsedS(),
                leftS,
                leftS,
                all,
                all - is.hit(),
                is.backlogMs(),
                is.worstBacklogMs(),
                request.session().bufferS() * 1e3,
                is.worstServiceMs(),
                is.lostMs(),
                is.bytes(),
                rate.of(is.elapsedS(), is.bytes()),
                0));
    }

    private DrillRecord record(State state, String why, @Nullable String endedAt) {
        return new DrillRecord(
                DrillRecord.SCHEMA,
                request.runId(),
                request.tool(),
                startedAt,
                endedAt,
                state,
                why,
                new Seed(request.seed()),
                request.session(),
                driveFacts,
                hostFacts,
                bench.method(),
                stop,
                pull,
                back,
                tracks,
                files,
                null);
    }
}

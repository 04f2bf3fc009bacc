package tracksoak.bench.phase.run;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.NoPlaceException;
import tracksoak.bench.drive.system.OpenFiles;
import tracksoak.bench.drive.system.RecordedPlace;
import tracksoak.bench.phase.timeleft.Pace;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.watch.CallWatch;
import tracksoak.bench.recorder.watch.Canary;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.recorder.watch.SleepProbe;
import tracksoak.bench.recorder.watch.WatchedDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.StreamSpec;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Units;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.MethodFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ProbeFacts;

/** What the phases of one run share: the request, the watched drive and the files on it, the clocks, the executor, and who is told. */
public final class Bench {

    /** How long the system may take to notice that a device is gone, in ns. */
    private static final long NOTICE_NS = TimeUnit.SECONDS.toNanos(1);

    /** Less than this is no room whatever reserve was asked for, in bytes. */
    private static final long LEAST_ROOM = 8L << 20;

    private static final long NOTICE_STEP_NS = TimeUnit.MILLISECONDS.toNanos(50);

    final RunRequest request;
    final Drive drive;
    final NanoClock clock;
    final EpochClock epoch;
    final Waiter waiter;
    final boolean virtual;
    public final WatchedExecutor executor;
    final Pace pace = new Pace();
    final FilesOnDrive onDrive = new FilesOnDrive();
    /** What the phases so far found, in order. */
    final List<PhaseFacts> done = new ArrayList<>();

    public final long runNumber;
    private final SleepProbe sleep;
    private final Teller teller;
    private final CallWatch watch;
    private boolean hangs;

    @Nullable
    ProbeFacts probes;

    private volatile @Nullable HostMonitor monitor;

    /** Hears from the phases: progress now and then, and the sheet so far where it is worth keeping. */
    public interface Teller {
        void tick(Supplier<Now> now, Supplier<PhaseFacts> soFar);
    }

    /**
     * Where a phase is.
     *
     * @param leftS left of this phase in s, negative if unknown
     * @param busyS time spent inside calls so far, in s
     * @param hit tracks that have lost audio
     */
    public record Now(
            double elapsedS,
            double leftS,
            double busyS,
            int hit,
            double backlogMs,
            double worstBacklogMs,
            double worstServiceMs,
            double lostMs,
            long bytes) {}

    /**
     * @param drive on which it is worked: the target's own, or one around it
     * @param target the time it lives in
     */
    public Bench(RunRequest request, Drive drive, Target target, BooleanSupplier cancelled, Teller teller) {
        this.clock = target.clock();
        this.epoch = target.epoch();
        this.waiter = target.waiter();
        this.virtual = target.virtual();
        this.sleep = target.sleep();
        this.watch = new CallWatch(clock);
        this.request = request;
        this.drive = virtual ? drive : new WatchedDrive(drive, watch);
        this.executor = new WatchedExecutor(watch, clock, request.hangLimitS(), virtual, cancelled);
        this.runNumber = UUID.fromString(request.runId()).getLeastSignificantBits();
        this.teller = teller;
    }

    /** The session's streams. */
    List<StreamSpec> streams() {
        return request.session().streams();
    }

    public StreamTable table(double seconds) {
        return table(streams(), seconds);
    }

    /** The timetable of the mix of a mixdown. */
    StreamTable mixTable(double seconds) {
        return table(request.session().mixStreams(), seconds);
    }

    private StreamTable table(List<StreamSpec> streams, double seconds) {
        return new StreamTable(
                streams,
                drive.alignmentBytes(),
                request.session().arrival(),
                request.session().bufferS(),
                Math.round(seconds * 1e9));
    }

    /** Another drive under the same watch. */
    public Drive watched(Drive other) {
        return virtual ? other : new WatchedDrive(other, watch);
    }

    /** Files for one pass, none of them open yet. */
    StreamFiles files(String label, int pass) {
        return files(label, pass, streams());
    }

    /** Files of the mix for one pass, none of them open yet. */
    StreamFiles mixFiles(String label, int pass) {
        return files(label, pass, request.session().mixStreams());
    }

    private StreamFiles files(String label, int pass, List<StreamSpec> streams) {
        return new StreamFiles(
                        drive,
                        label,
                        pass,
                        runNumber,
                        streams.size(),
                        request.session().fileLimitBytes())
                .inAdvance(request.session().spaceInAdvanceBytes());
    }

    ChunkStamper stamper(StreamTable table) {
        return new ChunkStamper(
                runNumber, request.seed(), drive.keepsBodies(), table.largestChunkBytes(), drive.alignmentBytes());
    }

    HostMonitor monitor() {
        HostMonitor begun = new HostMonitor(
                clock, epoch, waiter, sleep, !virtual, drive.ioMode() == IoMode.DIRECT ? drive::busyMs : () -> -1);
        monitor = begun;
        return begun;
    }

    /** Longest delay of the computer's own in the phase that goes on, in ms. */
    double hostDelayMs() {
        HostMonitor now = monitor;
        return now == null ? 0 : now.worstMs();
    }

    /** The time of day, as records write it. */
    public String now() {
        return Instant.ofEpochMilli(epoch.epochMillis()).toString();
    }

    /** How the drive is written to and read. */
    public MethodFacts method() {
        return new MethodFacts(
                drive.ioMode(),
                drive.ioReason(),
                drive.alignmentBytes(),
                table(1).largestChunkBytes(),
                request.hangLimitS(),
                drive.ioMode() == IoMode.SIMULATED ? 0 : Canary.INTERVAL_NS / 1e6,
                probes);
    }

    PhaseFacts.Builder notes(PhaseKind kind) {
        return PhaseFacts.builder(kind, now());
    }

    /** Asks the drive something; what ended that, or null if it answered. */
    @Nullable
    PhaseFacts ask(PhaseKind kind, WatchedExecutor.Job question) {
        long fromNs = clock.nanoTime();
        WatchedExecutor.Outcome asked = executor.work(List.of(question), () -> {});
        if (asked.done()) {
            return null;
        }
        PhaseFacts.Builder notes = notes(kind);
        notes.seconds((clock.nanoTime() - fromNs) / 1e9);
        notes.fault(fault(asked, fromNs, 0));
        return notes.build();
    }

    void tell(Supplier<Now> now, Supplier<PhaseFacts> soFar) {
        teller.tick(now, soFar);
    }

    /** Whether a call never came back: the drive must not be touched any more. */
    public boolean hangs() {
        return hangs;
    }

    /** What the device's counters say since {@code before}; null without counters or once the drive hangs. */
    @Nullable
    DeviceEvidence evidence(Optional<Counters> before, long payloadBytes) {
        Optional<Counters> after = hangs ? Optional.empty() : drive.counters();
        if (before.isEmpty() || after.isEmpty()) {
            return null;
        }
        Long busyFrom = before.get().busyMs();
        Long busyTo = after.get().busyMs();
        return new DeviceEvidence(
                Math.max(0, after.get().bytesWritten() - before.get().bytesWritten()),
                Math.max(0, after.get().bytesRead() - before.get().bytesRead()),
                payloadBytes,
                // a counter that ran over tells nothing
                busyFrom == null || busyTo == null || busyTo < busyFrom ? null : (Double) (double) (busyTo - busyFrom),
                after.get().neighboursSince(before.get()));
    }

    /** Puts a name to what ended a phase, by the state of the drive now and the system's number, never by an error's words. */
    @Nullable
    public Fault fault(WatchedExecutor.Outcome outcome, long phaseStartNs, long bytes) {
        double atS = (clock.nanoTime() - phaseStartNs) / 1e9;
        return switch (outcome.end()) {
            case DONE -> null;
            case CANCELLED -> new Fault(Fault.Kind.INTERRUPTED, atS, bytes, "run", "stopped by you");
            case HUNG, UNANSWERED -> {
                hangs = true;
                CallWatch.Call stuck = Objects.requireNonNull(outcome.stuck());
                double since = (stuck.sinceNs() - phaseStartNs) / 1e9;
                boolean stopped = outcome.end() == WatchedExecutor.End.UNANSWERED;
                String waited = Units.seconds((clock.nanoTime() - stuck.sinceNs()) / 1e9);
                yield new Fault(
                        stopped ? Fault.Kind.UNANSWERED : Fault.Kind.HUNG,
                        since,
                        bytes,
                        stuck.what(),
                        stopped
                                ? "the call had not come back for " + waited + " when the run was stopped by you"
                                : "the call has not come back");
            }
            case BROKEN -> {
                Throwable broken = Objects.requireNonNull(outcome.problem());
                String message = broken.getClass().getSimpleName() + ": " + RecordedPlace.of(broken);
                yield new Fault(Fault.Kind.INTERNAL, atS, bytes, "Tracksoak itself", message);
            }
            case FAILED -> {
                Throwable refused = Objects.requireNonNull(outcome.problem());
                String message = RecordedPlace.of(refused);
                yield new Fault(kindOf(refused), atS, bytes, "a call to the drive", message);
            }
        };
    }

    private Fault.Kind kindOf(Throwable refused) {
        if (!virtual && !OpenFiles.oneMore()) {
            return Fault.Kind.INTERNAL;
        }
        long until = clock.nanoTime() + NOTICE_NS;
        Presence presence = drive.presence();
        while (presence == Presence.PRESENT && clock.nanoTime() < until) {
            waiter.waitUntil(clock.nanoTime() + NOTICE_STEP_NS);
            presence = drive.presence();
        }
        return switch (presence) {
            case GONE -> Fault.Kind.GONE;
            case READ_ONLY -> Fault.Kind.READ_ONLY;
            case PRESENT, UNKNOWN ->
                refused instanceof NoPlaceException full
                        ? lacking(full.lack())
                        : lessFreeThan(request.reserveBytes() / 2) ? Fault.Kind.NO_SPACE : Fault.Kind.IO_ERROR;
        };
    }

    private Fault.Kind lacking(NoPlaceException.Lack lack) {
        return switch (lack) {
            case ROOM ->
                lessFreeThan(Math.max(LEAST_ROOM, request.reserveBytes() / 2))
                        ? Fault.Kind.NO_SPACE
                        : Fault.Kind.NO_ENTRIES;
            case LENGTH -> Fault.Kind.TOO_LARGE;
            case QUOTA -> Fault.Kind.QUOTA;
        };
    }

    private boolean lessFreeThan(long bytes) {
        long[] usable = {Long.MAX_VALUE};
        WatchedExecutor.Outcome asked = executor.work(List.of(stop -> usable[0] = drive.usableBytes()), () -> {});
        return asked.done() && usable[0] < bytes;
    }
}

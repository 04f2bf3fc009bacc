package tracksoak.bench.phase.run;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.phase.timeleft.RecentRate;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.NanoClock;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.verdict.Judge;

/**
 * One run of a plan on one drive, from the first take to the verdict. The thread that calls {@link #call} never touches
 * a real drive itself, so that the run ends in bounded time whatever the drive does.
 */
public final class Run {

    private static final long PROGRESS_NS = TimeUnit.MILLISECONDS.toNanos(200);
    private static final long SNAPSHOT_NS = TimeUnit.SECONDS.toNanos(10);

    private final RunRequest request;
    private final Drive drive;
    private final DriveFacts driveFacts;
    private final HostFacts hostFacts;
    private final NanoClock clock;
    private final RunListener listener;
    private final Bench bench;
    private final String startedAt;
    private final Steps steps;
    private long lastProgressNs;
    private RecentRate rate = new RecentRate();
    private long lastSnapshotNs;
    private volatile boolean cancelled;

    /**
     * Prepares a run; nothing is touched before {@link #call}.
     *
     * @throws IllegalArgumentException if the session's chunk, rounded up as the drive wants it, exceeds its buffer
     */
    public Run(RunRequest request, Target target, HostFacts hostFacts, RunListener listener) {
        this.request = request;
        this.drive = target.drive();
        this.driveFacts = target.facts();
        this.hostFacts = hostFacts;
        this.clock = target.clock();
        this.listener = listener;
        this.bench = new Bench(request, drive, target, () -> cancelled, this::tick);
        this.startedAt = bench.now();
        this.steps = new Steps(Program.of(bench, budget()), bench);
        bench.table(1);
        bench.mixTable(1);
    }

    /** Does the whole run and returns the judged record. Never throws for what the drive does. */
    public RunRecord call() {
        lastSnapshotNs = clock.nanoTime();
        listener.snapshot(record(RunState.RUNNING, bench.done, null));
        for (Step step = steps.next(); step != null && goesOn(); step = steps.next()) {
            listener.before(step.traffic());
            PhaseFacts found = step.go();
            if (found != null) {
                keep(found);
            }
        }
        if (bench.onDrive.anyOpen() && !bench.hangs()) {
            bench.executor.work(List.of(stop -> bench.onDrive.letGo()), () -> {});
        }
        RunRecord done = record(endState(), bench.done, bench.now());
        listener.snapshot(done);
        return done;
    }

    /**
     * The judged record once {@link #call} has returned and the drive failed while what was written was deleted, which is part of the
     * test: its last phase ends with that.
     */
    public RunRecord deletingFailed(Fault.Kind kind) {
        int at = bench.done.size() - 1;
        if (at >= 0 && bench.done.get(at).fault() == null) {
            PhaseFacts last = bench.done.get(at);
            Fault fault = new Fault(kind, last.seconds(), last.bytes(), "deleting what the run wrote", "");
            bench.done.set(at, last.but().complete(false).fault(fault).build());
        }
        return record(endState(), bench.done, bench.now());
    }

    /** Asks the run to end soon, from any thread; {@link #call} then returns a record that says so. */
    public void cancel() {
        cancelled = true;
    }

    /** The run's files on the drive as they should be; all of them read back once {@link #call} has returned a whole run. */
    public List<WrittenFile> written() {
        return bench.onDrive.all();
    }

    /** True if a call to the drive never came back, so that the drive must not be touched any more. */
    public boolean driveHangs() {
        return bench.hangs();
    }

    private boolean goesOn() {
        return !cancelled
                && (bench.done.isEmpty()
                        || bench.done.get(bench.done.size() - 1).fault() == null);
    }

    private void keep(PhaseFacts facts) {
        bench.done.add(facts);
        steps.learn(facts);
        rate = new RecentRate();
        listener.snapshot(record(RunState.RUNNING, bench.done, null));
        lastSnapshotNs = clock.nanoTime();
    }

    private void tick(Supplier<Bench.Now> now, Supplier<PhaseFacts> soFar) {
        long nowNs = clock.nanoTime();
        if (nowNs - lastProgressNs >= PROGRESS_NS) {
            Bench.Now is = now.get();
            lastProgressNs = nowNs;
            listener.progress(steps.progress(request.session(), is, rate.of(is.elapsedS(), is.bytes())));
        }
        if (!bench.virtual && nowNs - lastSnapshotNs >= SNAPSHOT_NS) {
            lastSnapshotNs = nowNs;
            List<PhaseFacts> withThis = new ArrayList<>(bench.done);
            withThis.add(soFar.get());
            listener.snapshot(record(RunState.RUNNING, withThis, null));
        }
    }

    private Budget budget() {
        long free = driveFacts.freeBytes() == null ? 0 : driveFacts.freeBytes();
        return Budget.of(request.session(), request.plan(), drive.roomUnitBytes(), free, request.reserveBytes());
    }

    private long keptBytes() {
        Long kept = request.extras().keptBytes();
        return kept == null ? request.reserveBytes() : kept;
    }

    private RunState endState() {
        Fault last = bench.done.isEmpty()
                ? null
                : bench.done.get(bench.done.size() - 1).fault();
        if (last == null) {
            return cancelled ? RunState.INTERRUPTED : RunState.COMPLETE;
        }
        return switch (last.kind()) {
            case INTERRUPTED, UNANSWERED -> RunState.INTERRUPTED;
            case INTERNAL, NO_SPACE, NO_ENTRIES, TOO_LARGE, QUOTA -> RunState.BROKEN;
            case HUNG, GONE, READ_ONLY, IO_ERROR -> RunState.COMPLETE;
        };
    }

    private RunRecord record(RunState state, List<PhaseFacts> done, @Nullable String endedAt) {
        Fault last = done.isEmpty() ? null : done.get(done.size() - 1).fault();
        RunRecord facts = new RunRecord(
                RunRecord.SCHEMA,
                request.runId(),
                request.tool(),
                startedAt,
                endedAt,
                state,
                state == RunState.INTERRUPTED || state == RunState.BROKEN
                        ? last == null ? "stopped by you" : last.what() + ": " + last.message()
                        : "",
                new Seed(request.seed()),
                request.session(),
                request.plan()
                        .facts(budget().mostBytes())
                        .keeping(keptBytes())
                        .besides(
                                request.extras().keepsakeBytes(),
                                request.extras().requalifies()),
                driveFacts,
                request.extras().tag(),
                hostFacts,
                bench.method(),
                request.extras().ready(),
                done,
                null);
        return facts.withVerdict(Judge.judge(request.session(), facts));
    }
}

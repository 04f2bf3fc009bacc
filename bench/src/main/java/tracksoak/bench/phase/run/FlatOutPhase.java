package tracksoak.bench.phase.run;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.stream.DoubleStream;
import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.phase.timeleft.Pace;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.bench.recorder.loop.Histograms;
import tracksoak.bench.recorder.loop.SecondSeries;
import tracksoak.bench.recorder.loop.StallMeter;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.watch.AbandonedException;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.Latencies;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.stats.ChangePoint;
import tracksoak.report.stats.FloorMeter;
import tracksoak.report.stats.RateTrace;
import tracksoak.report.stats.SteadyState;

/**
 * Writes as fast as the drive takes it and keeps the books of that: what a fill and a copy have in common. The room is
 * looked for when its turn comes.
 */
abstract class FlatOutPhase implements Step {

    private static final long FLOOR_WINDOW_NS = TimeUnit.SECONDS.toNanos(10);

    /** Until then its own rate tells little of what is left, in s. */
    private static final double LEAST_SEEN_S = 1;

    final Bench bench;
    final StreamTable table;
    final StreamFiles files;
    private final PhaseKind kind;
    private final long roundNs;
    private final long capNs;
    private final Histogram service = Histograms.nanoseconds();
    private final SecondSeries series;
    private final StallMeter stalls;
    private RateTrace trace = new RateTrace(0);
    private FloorMeter floor;
    private boolean begun;
    private long room;
    private long startNs;
    private long bytes;
    private long operations;
    private long busyNs;
    private long worstNs;
    private long nextRoundNs;
    private Ended ended = Ended.CUT_SHORT;
    private boolean abandoned;
    private long doneAtNs;
    private volatile @Nullable HostMonitor host;

    /**
     * Touches nothing yet.
     *
     * @param capS longest time it may take, in s
     */
    FlatOutPhase(Bench bench, PhaseKind kind, String label, int pass, double capS) {
        this.bench = bench;
        this.kind = kind;
        this.table = bench.table(1);
        this.files = bench.files(label, pass);
        this.capNs = Math.round(capS * 1e9);
        this.roundNs = Math.round(bench.request.plan().roundS() * 1e9);
        this.floor = new FloorMeter(0, FLOOR_WINDOW_NS);
        this.series = new SecondSeries((int) Math.min(capS, 86_400) + 1);
        this.stalls = new StallMeter(
                TimeUnit.MILLISECONDS.toNanos(bench.request.session().stallLimitMs()), this::hostDelayNs);
    }

    private long hostDelayNs(long fromNs, long toNs) {
        HostMonitor monitor = host;
        return monitor == null || bench.virtual ? 0 : monitor.delayNs(fromNs + startNs, toNs + startNs);
    }

    /** Most bytes it may write, of those that can be used on the drive now. */
    abstract long roomIn(long usableBytes);

    /** Writes until {@link #append}, the room or the work is at its end, and makes it durable. */
    abstract void writeAll(BooleanSupplier stop) throws IOException;

    /** What it writes if nothing ends it before, in bytes. */
    abstract long wantedBytes();

    /** How the rounds so far end it; null if it goes on. */
    abstract @Nullable Ended endAfter(double[] rounds);

    /** Whether the last rounds may tell the steady rate. */
    abstract boolean steady();

    /** How long it will take before it begins, as {@link Step#expectedS}. */
    abstract double beforehandS(WorkAhead ahead);

    /**
     * Time left in s by the rule that ends it, its cap apart.
     *
     * @param byBytesS time for the bytes still wanted
     * @param bytesPerSecond the rate it goes at
     */
    abstract double leftByRuleS(double elapsedS, double byBytesS, double bytesPerSecond);

    @Override
    public final PhaseKind kind() {
        return kind;
    }

    @Override
    public final PhaseFacts go() {
        long[] usable = {0};
        PhaseFacts silent = bench.ask(kind, stop -> usable[0] = bench.drive.usableBytes());
        if (silent != null) {
            return silent;
        }
        bench.onDrive.opens(files);
        PhaseFacts facts = write(roomIn(usable[0]));
        if (facts.fault() == null) {
            bench.onDrive.closed(files);
        }
        return facts;
    }

    /** Does it in so much room, in bytes. */
    public final PhaseFacts write(long roomBytes) {
        PhaseFacts.Builder notes = bench.notes(kind);
        try (HostMonitor monitor = bench.monitor()) {
            host = monitor;
            Optional<Counters> before = bench.drive.counters();
            begin(roomBytes);
            WatchedExecutor.Outcome outcome = bench.executor.work(
                    List.of(this::writeAll),
                    () -> bench.tell(this::now, () -> {
                        synchronized (this) {
                            note(notes, bench.clock.nanoTime(), monitor);
                        }
                        return notes.build();
                    }));
            long written;
            synchronized (this) {
                abandoned = true;
                long endNs = bench.clock.nanoTime();
                if (outcome.stuck() != null) {
                    long calledNs = Math.max(startNs, outcome.stuck().sinceNs());
                    stalls.waited(calledNs - startNs, endNs - startNs);
                    trace.add(calledNs, endNs, 0);
                    floor.add(calledNs, endNs, 0);
                    busyNs += endNs - calledNs;
                }
                note(notes, endNs, monitor);
                written = bytes;
            }
            notes.complete(outcome.done());
            notes.fault(bench.fault(outcome, startNs, written));
            notes.device(bench.evidence(before, written));
            return notes.build();
        }
    }

    private synchronized void begin(long roomBytes) {
        room = roomBytes;
        startNs = bench.clock.nanoTime();
        trace = new RateTrace(startNs);
        floor = new FloorMeter(startNs, FLOOR_WINDOW_NS);
        nextRoundNs = startNs + roundNs;
        begun = true;
    }

    /** Writes a chunk; true if that was the last. */
    final boolean append(ChunkStamper stamper, int stream, int chunk) throws IOException {
        ByteBuffer bytesOut = stamper.stamp(stream, files.pass(), files.nextBlock(stream), chunk);
        long called = bench.clock.nanoTime();
        files.append(stream, bytesOut);
        return book(called, bench.clock.nanoTime(), chunk);
    }

    /** Changes a stream to its next file. Its time is told apart from that of writes: takes do the same at the session's pace. */
    final void change(int stream) throws IOException {
        long called = bench.clock.nanoTime();
        files.split(stream);
        long done = bench.clock.nanoTime();
        synchronized (this) {
            series.flush(called - startNs, done - startNs);
        }
    }

    /** Nothing more is to be written. */
    final synchronized void finish(Ended how) {
        ended = how;
        doneAtNs = bench.clock.nanoTime();
    }

    /** Books a chunk; true if it has reached its end. */
    private synchronized boolean book(long called, long done, int chunk) {
        if (abandoned) {
            throw new AbandonedException();
        }
        trace.add(called, done, chunk);
        floor.add(called, done, chunk);
        service.recordValue(Math.min(done - called, service.getHighestTrackableValue()));
        series.call(called - startNs, done - startNs, chunk);
        stalls.waited(called - startNs, done - startNs);
        bytes += chunk;
        operations++;
        busyNs += done - called;
        worstNs = Math.max(worstNs, done - called);
        boolean over = false;
        if (done >= nextRoundNs) {
            while (nextRoundNs <= done) {
                nextRoundNs += roundNs;
            }
            Ended how = endAfter(trace.rounds(roundNs));
            over = how != null;
            ended = how == null ? ended : how;
        }
        if (!over && done - startNs >= capNs) {
            ended = Ended.CAP;
            over = true;
        }
        if (over) {
            doneAtNs = done;
        }
        return over;
    }

    /** Most it may write, in bytes. */
    final long room() {
        return room;
    }

    /** Written so far, in bytes; for {@link #endAfter}. */
    final long bytes() {
        return bytes;
    }

    static boolean isSteady(double[] rounds) {
        return rounds.length >= SteadyState.ROUNDS
                && SteadyState.of(Arrays.copyOfRange(rounds, rounds.length - SteadyState.ROUNDS, rounds.length))
                        .steady();
    }

    private synchronized Bench.Now now() {
        double elapsed = elapsedS();
        return new Bench.Now(elapsed, leftS(), elapsed, 0, 0, 0, worstNs / 1e6, 0, bytes);
    }

    @Override
    public final synchronized double expectedS(WorkAhead ahead) {
        if (!begun) {
            return beforehandS(ahead);
        }
        double left = leftS();
        ahead.leaves(Math.min((double) room, bytes + Math.max(0, left) * rate()));
        return left;
    }

    private double leftS() {
        double rate = rate();
        if (rate <= 0) {
            return Pace.UNKNOWN;
        }
        double byBytes = Math.max(0, wantedBytes() - bytes) / rate;
        double elapsed = elapsedS();
        return Math.max(0, Math.min(capNs / 1e9 - elapsed, leftByRuleS(elapsed, byBytes, rate)));
    }

    private double elapsedS() {
        return (bench.clock.nanoTime() - startNs) / 1e9;
    }

    /** Mean of the last half of the time so far, in B/s; in the first second what was seen of the drive before, 0 if nothing was. */
    private double rate() {
        if (elapsedS() < LEAST_SEEN_S) {
            return Math.max(0, 1 / bench.pace.secondsToWrite(1));
        }
        long now = bench.clock.nanoTime();
        long middle = startNs + (now - startNs) / 2;
        return trace.bytesBetween(middle, now) / ((now - middle) / 1e9);
    }

    private void note(PhaseFacts.Builder notes, long nowNs, HostMonitor monitor) {
        long endNs = doneAtNs == 0 ? nowNs : doneAtNs;
        notes.seconds((endNs - startNs) / 1e9);
        notes.bytes(bytes);
        notes.operations(operations);
        notes.busyFraction(endNs == startNs ? 0 : Math.min(1, busyNs / (double) (endNs - startNs)));
        notes.stallCount(stalls.count());
        notes.stallTotalMs(stalls.totalMs());
        notes.stalls(stalls.listed());
        notes.service(Latencies.of(service));
        notes.series(series.toSeries());
        notes.hostDelays(monitor.facts());
        double[] rounds = trace.rounds(roundNs);
        boolean isSteady = steady() && isSteady(rounds);
        Optional<ChangePoint> cliff = ChangePoint.find(trace);
        notes.fill(new FillFacts(
                ended,
                isSteady,
                roundNs / 1e9,
                DoubleStream.of(rounds).boxed().toList(),
                floor.floor(endNs),
                FLOOR_WINDOW_NS / 1e9,
                cliff.map(ChangePoint::bytes).orElse(null),
                cliff.map(ChangePoint::rateBefore).orElse(null),
                cliff.map(ChangePoint::rateAfter).orElse(null),
                room));
    }
}

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
import tracksoak.bench.phase.timeleft.DiskShape;
import tracksoak.bench.phase.timeleft.FallWatch;
import tracksoak.bench.phase.timeleft.Outlook;
import tracksoak.bench.recorder.loop.Histograms;
import tracksoak.bench.recorder.loop.SecondSeries;
import tracksoak.bench.recorder.loop.StallMeter;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.watch.AbandonedException;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.Session;
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
 * Writes all streams in turn as fast as the drive takes them, until the rate is steady (SNIA PTS 2.0.2 §2.1.24) and
 * either as much is written as the session itself would write, or a cliff is behind, or the answer cannot change any
 * more. A fast cache looks steady too: without that second condition a drive would be judged by its cache.
 */
public final class FillPhase {

    private static final long FLOOR_WINDOW_NS = TimeUnit.SECONDS.toNanos(10);

    private final Bench bench;
    private final StreamTable table;
    private final StreamFiles files;
    private final long room;
    private final long roundNs;
    private final long capNs;
    private final double needBytesPerSecond;
    private final long sessionBytes;
    /** Whether it goes on to its end whatever the rate does. */
    private final boolean whole;
    /** What is copied, null for a fill. */
    private final @Nullable StreamTable show;

    private final Histogram service = Histograms.nanoseconds();
    private final SecondSeries series;
    private final StallMeter stalls;
    private Outlook outlook = new Outlook(DiskShape.EVEN, 0);
    private double slowing;
    private RateTrace trace = new RateTrace(0);
    private FallWatch fall = new FallWatch(trace);
    private FloorMeter floor;
    private long startNs;
    private long bytes;
    private long operations;
    private long busyNs;
    private long worstNs;
    private long nextRoundNs;
    private Ended ended = Ended.CUT_SHORT;
    private boolean steady;
    private boolean abandoned;
    private long doneAtNs;
    private volatile @Nullable HostMonitor host;

    /**
     * A fill about to start.
     *
     * @param room most bytes it may write, so that the reserve and the take after it still fit
     */
    public FillPhase(Bench bench, String label, int pass, long room) {
        this(bench, label, pass, room, bench.request.plan().fillCapS(), null);
    }

    /** A copy about to start: one file after another, as a finished show is put on a drive; it ends when all is there. */
    static FillPhase copy(Bench bench, String label, int pass, long room) {
        Plan plan = bench.request.plan();
        return new FillPhase(bench, label, pass, room, plan.copyCapS(), bench.table(plan.copyS()));
    }

    private FillPhase(Bench bench, String label, int pass, long room, double capS, @Nullable StreamTable show) {
        this.show = show;
        this.bench = bench;
        this.table = bench.table(1);
        this.room = room;
        this.files = bench.files(label, pass);
        Plan plan = bench.request.plan();
        this.capNs = Math.round(capS * 1e9);
        this.roundNs = Math.round(plan.roundS() * 1e9);
        this.floor = new FloorMeter(0, FLOOR_WINDOW_NS, roundNs);
        this.needBytesPerSecond = needed(bench.request.session());
        this.sessionBytes = bench.request.session().bytesPerSecond()
                * bench.request.session().lengthS();
        this.whole = show != null || plan.wholeSpace();
        this.series = new SecondSeries((int) Math.min(capS, 86_400) + 1);
        this.stalls = new StallMeter(
                TimeUnit.MILLISECONDS.toNanos(bench.request.session().stallLimitMs()), this::hostDelayNs);
    }

    /** Below this rate a fill ends as soon as it is steady, in B/s. */
    static double needed(Session session) {
        return session.margins().rate() * session.bytesPerSecond();
    }

    private long hostDelayNs(long fromNs, long toNs) {
        HostMonitor monitor = host;
        return monitor == null || bench.virtual ? 0 : monitor.delayNs(fromNs + startNs, toNs + startNs);
    }

    StreamFiles files() {
        return files;
    }

    public PhaseFacts fill() {
        PhaseNotes notes = bench.notes(show == null ? PhaseKind.FILL : PhaseKind.COPY);
        notes.plannedSeconds = 0;
        try (HostMonitor monitor = bench.monitor()) {
            host = monitor;
            Optional<Counters> before = bench.drive.counters();
            outlook = new Outlook(bench.pace.shape(), bench.pace.secondsToWrite(1));
            startNs = bench.clock.nanoTime();
            trace = new RateTrace(startNs);
            fall = new FallWatch(trace);
            floor = new FloorMeter(startNs, FLOOR_WINDOW_NS, roundNs);
            nextRoundNs = startNs + roundNs;
            WatchedExecutor.Outcome outcome = bench.executor.work(
                    List.of(show == null ? this::write : this::copy),
                    () -> bench.tell(this::now, () -> {
                        synchronized (this) {
                            note(notes, bench.clock.nanoTime(), monitor);
                        }
                        return notes.facts();
                    }));
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
            }
            notes.complete = outcome.done();
            notes.fault = bench.fault(outcome, startNs, notes.bytes);
            notes.device = bench.evidence(before, notes.bytes);
            return notes.facts();
        }
    }

    private void write(BooleanSupplier stop) throws IOException {
        ChunkStamper stamper = bench.stamper(table);
        int streams = table.streams();
        for (int stream = 0; stream < streams; stream++) {
            files.begin(stream);
        }
        int opened = streams;
        long left = room - (long) opened * bench.drive.alignmentBytes();
        for (int stream = 0; !stop.getAsBoolean(); stream = stream + 1 == streams ? 0 : stream + 1) {
            int chunk = table.chunkBytes(stream);
            if (chunk + bench.drive.alignmentBytes() > left) {
                finish(Ended.FULL);
                break;
            }
            if (files.mustSplit(stream, chunk)) {
                files.split(stream);
                left -= bench.drive.alignmentBytes();
            }
            left -= chunk;
            if (append(stamper, stream, chunk)) {
                break;
            }
        }
        for (int stream = 0; stream < streams; stream++) {
            files.rewriteHeader(stream);
            files.flushWhole(stream);
            files.close(stream);
        }
        bench.drive.syncFolder();
    }

    private void copy(BooleanSupplier stop) throws IOException {
        ChunkStamper stamper = bench.stamper(table);
        int alignment = bench.drive.alignmentBytes();
        long left = room;
        boolean over = false;
        for (int stream = 0; stream < table.streams() && !over && !stop.getAsBoolean(); stream++) {
            files.begin(stream);
            left -= alignment;
            long rest = targetBytes(stream);
            while (rest > 0 && !over && !stop.getAsBoolean()) {
                int chunk = (int) Math.min(table.chunkBytes(stream), rest);
                if (chunk + alignment > left) {
                    finish(Ended.FULL);
                    over = true;
                    continue;
                }
                if (files.mustSplit(stream, chunk)) {
                    files.split(stream);
                    left -= alignment;
                }
                left -= chunk;
                rest -= chunk;
                over = append(stamper, stream, chunk);
            }
            files.finish(stream);
        }
        if (!over && !stop.getAsBoolean()) {
            finish(Ended.COPIED);
        }
        bench.drive.syncFolder();
    }

    private long targetBytes(int stream) {
        long unit = bench.drive.alignmentBytes();
        return show == null ? 0 : (show.totalBytes(stream) + unit - 1) / unit * unit;
    }

    /** What it writes if nothing ends it before, in bytes. */
    private long wantedBytes() {
        if (show == null) {
            return whole ? room : Math.min(sessionBytes, room);
        }
        long bytes = 0;
        for (int stream = 0; stream < table.streams(); stream++) {
            bytes += targetBytes(stream);
        }
        return Math.min(room, bytes);
    }

    /** Writes a chunk; true if that was the last. */
    private boolean append(ChunkStamper stamper, int stream, int chunk) throws IOException {
        ByteBuffer bytesOut = stamper.stamp(stream, files.pass(), files.nextBlock(stream), chunk);
        long called = bench.clock.nanoTime();
        files.append(stream, bytesOut);
        return book(called, bench.clock.nanoTime(), chunk);
    }

    private synchronized void finish(Ended how) {
        ended = how;
        doneAtNs = bench.clock.nanoTime();
    }

    /** Books a chunk; true if the fill has reached its end. */
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
            over = judgeRound();
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

    private boolean judgeRound() {
        double[] rounds = trace.rounds(roundNs);
        slowing = Outlook.slowing(rounds, roundNs / 1e9);
        if (whole) {
            return false;
        }
        steady = isSteady(rounds);
        if (!steady) {
            return false;
        }
        if (floor.floorOfLastRounds() < needBytesPerSecond) {
            ended = Ended.BELOW_NEED;
            return true;
        }
        if (bytes >= Math.min(sessionBytes, room) || ChangePoint.find(trace).isPresent()) {
            ended = Ended.STEADY;
            return true;
        }
        return false;
    }

    private static boolean isSteady(double[] rounds) {
        return rounds.length >= SteadyState.ROUNDS
                && SteadyState.of(Arrays.copyOfRange(rounds, rounds.length - SteadyState.ROUNDS, rounds.length))
                        .steady();
    }

    private Bench.Now now() {
        synchronized (this) {
            long now = bench.clock.nanoTime();
            double elapsed = (now - startNs) / 1e9;
            bench.pace.wears(wear());
            return new Bench.Now(elapsed, leftS(), elapsed, 0, 0, 0, worstNs / 1e6, 0, bytes);
        }
    }

    /** How long it will still take, in s, as well as can be told. */
    synchronized double leftS() {
        double elapsed = elapsedS();
        double byBytes = secondsFor((double) (wantedBytes() - bytes));
        double capped = capNs / 1e9 - elapsed;
        double soon = whole ? 0 : leftToSteadyS(elapsed);
        double byRule = soon > 0 ? soon : whole ? byBytes : Math.max(byBytes, roundsS(SteadyState.ROUNDS) - elapsed);
        return Math.max(0, byBytes < 0 ? capped : Math.min(capped, byRule));
    }

    /** A fill that is too slow, or has met a cliff, ends as soon as it is steady; 0 where that does not apply. */
    private double leftToSteadyS(double elapsed) {
        double fellAtS = fall.fellAtS(bench.clock.nanoTime());
        if (!Double.isNaN(fellAtS)) {
            return dueS(fellAtS + roundsS(SteadyState.ROUNDS + 1) - elapsed);
        }
        return recentRate(recentBytes()) < needBytesPerSecond ? dueS(roundsS(SteadyState.ROUNDS) - elapsed) : 0;
    }

    /** What is due now may come with the next round, or the one after; what is overdue cannot be counted on. */
    private double dueS(double left) {
        return left > -roundsS(2) ? Math.max(left, roundsS(1) / 2) : 0;
    }

    private double roundsS(int rounds) {
        return rounds * roundNs / 1e9;
    }

    private double elapsedS() {
        return (bench.clock.nanoTime() - startNs) / 1e9;
    }

    /** Time for more bytes at the mean rate of the last half of the time so far, in s; negative if unknown. */
    private double secondsFor(double more) {
        double recent = recentBytes();
        return outlook.secondsFor(bytes - recent, (double) bytes, more, recentRate(recent), slowing);
    }

    /** Written in the last half of the time so far. */
    private double recentBytes() {
        long now = bench.clock.nanoTime();
        return trace.bytesBetween(startNs + (now - startNs) / 2, now);
    }

    private double recentRate(double recent) {
        double elapsed = elapsedS();
        return outlook.settled(elapsed <= 0 ? 0 : recent / (elapsed / 2), elapsed);
    }

    private double wear() {
        double recent = recentBytes();
        return outlook.wear(bytes - recent / 2, recentRate(recent), expectedBytes(), slowing);
    }

    /** What it will have written at its end, in bytes, as well as can be told. */
    synchronized double expectedBytes() {
        return Math.min((double) (whole ? wantedBytes() : room), bytes + leftS() * recentRate(recentBytes()));
    }

    private void note(PhaseNotes notes, long nowNs, HostMonitor monitor) {
        long endNs = doneAtNs == 0 ? nowNs : doneAtNs;
        notes.seconds = (endNs - startNs) / 1e9;
        notes.bytes = bytes;
        notes.operations = operations;
        notes.busyFraction = endNs == startNs ? 0 : Math.min(1, busyNs / (double) (endNs - startNs));
        notes.stallCount = stalls.count();
        notes.stallTotalMs = stalls.totalMs();
        notes.stalls = stalls.listed();
        notes.service = Latencies.of(service);
        notes.series = series.toSeries();
        notes.hostDelays = monitor.facts();
        double[] rounds = trace.rounds(roundNs);
        boolean isSteady = (steady || whole) && isSteady(rounds);
        Optional<ChangePoint> cliff = ChangePoint.find(trace);
        notes.fill = new FillFacts(
                ended,
                isSteady,
                roundNs / 1e9,
                DoubleStream.of(rounds).boxed().toList(),
                isSteady ? floor.floorOfLastRounds() : floor.floor(endNs),
                FLOOR_WINDOW_NS / 1e9,
                cliff.map(ChangePoint::bytes).orElse(null),
                cliff.map(ChangePoint::rateBefore).orElse(null),
                cliff.map(ChangePoint::rateAfter).orElse(null),
                room);
    }
}

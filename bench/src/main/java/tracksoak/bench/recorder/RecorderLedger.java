package tracksoak.bench.recorder;

import org.HdrHistogram.Histogram;

/**
 * The books of a take: what every stream has made, what is on the drive, what is lost. Pure arithmetic over the times it
 * is told, all in ns since the take began; knows no clock, no thread and no drive.
 *
 * <p>Each stream has a ring of {@code buffer} bytes. Its backlog is {@code produced − done − lost}. A chunk that does not
 * fit completely while it is being made is dropped whole, as a recorder would drop it, and the take goes on. Whatever was
 * dropped is found at the next completion of that stream, or when {@link #settle} is called; between two completions the
 * backlog only grows, so nothing is missed.
 *
 * <p>Thread-safe; writers, the monitor and snapshots share it. Allocates nothing once made, but for listed stalls and
 * overruns.
 */
public final class RecorderLedger {

    /** Says that nothing is waiting. */
    public static final int NOTHING = -1;

    private static final long NEVER = Long.MAX_VALUE;
    private static final long SECOND = 1_000_000_000L;

    private final StreamTable table;
    private final HostWatch host;
    private final int streams;
    private final StallMeter stalls;
    private final OverrunLog overruns;
    private final SecondSeries series;
    private final Histogram service = Histograms.nanoseconds();
    private final Histogram response = Histograms.nanoseconds();
    private final Histogram flushes = Histograms.nanoseconds();

    private final long[] next;
    private final long[] nextReadyNs;
    private final boolean[] inFlight;
    private final long[] doneBytes;
    private final long[] lostBytes;
    private final long[] peakBytes;
    private final GapQueue gaps;

    private int last;
    private long waitingSinceNs = NEVER;
    private long lastDoneNs;
    private long writtenBytes;
    private long operations;
    private long busyNs;
    private long sampledSecond;
    private double peakMs;
    private long peakAtNs;
    private long peakHostNs;
    private double worstServiceMs;
    private boolean abandoned;

    /**
     * Opens the books.
     *
     * @param table the timetable
     * @param stallLimitNs an interval without a finished chunk longer than this is a stall, in ns
     * @param host knows the host's share of an interval, on the same zero as the times given here
     */
    public RecorderLedger(StreamTable table, long stallLimitNs, HostWatch host) {
        this.table = table;
        this.host = host;
        this.streams = table.streams();
        this.stalls = new StallMeter(stallLimitNs, host);
        this.overruns = new OverrunLog(table, host);
        this.series = new SecondSeries((int) (table.lengthNs() / SECOND) + 1);
        this.next = new long[streams];
        this.nextReadyNs = new long[streams];
        this.inFlight = new boolean[streams];
        this.doneBytes = new long[streams];
        this.lostBytes = new long[streams];
        this.peakBytes = new long[streams];
        this.gaps = new GapQueue(table);
        this.last = streams - 1;
        for (int i = 0; i < streams; i++) {
            nextReadyNs[i] = table.chunks(i) > 0 ? table.readyNs(i, 0) : NEVER;
        }
    }

    /**
     * Takes the next ready chunk, in turn after the stream written last, and marks its stream as in flight.
     *
     * @return the stream, or {@link #NOTHING}
     */
    public synchronized int claim(long nowNs) {
        refuseIfAbandoned();
        for (int step = 1; step <= streams; step++) {
            int stream = last + step;
            stream = stream >= streams ? stream - streams : stream;
            if (nextReadyNs[stream] <= nowNs && !inFlight[stream]) {
                if (waitingSinceNs == NEVER) {
                    waitingSinceNs = Math.max(lastDoneNs, earliestReadyNs());
                }
                inFlight[stream] = true;
                last = stream;
                return stream;
            }
        }
        return NOTHING;
    }

    /** When the next chunk that nobody has claimed is ready, or {@code Long.MAX_VALUE} if none is left. */
    public synchronized long nextReadyNs() {
        long earliest = NEVER;
        for (int i = 0; i < streams; i++) {
            if (!inFlight[i]) {
                earliest = Math.min(earliest, nextReadyNs[i]);
            }
        }
        return earliest;
    }

    /** Audio in the chunk a stream has in flight, in bytes. */
    public synchronized int claimedBytes(int stream) {
        return table.bytesOf(stream, next[stream]);
    }

    /**
     * Books a chunk that is on the drive now.
     *
     * @param stream that was claimed
     * @param calledNs when the write was called
     * @param doneNs when it came back
     * @param onDrive bytes written, with padding
     */
    public synchronized void done(int stream, long calledNs, long doneNs, int onDrive) {
        refuseIfAbandoned();
        sampleSeconds(doneNs);
        dropWhatDidNotFit(stream, doneNs);
        notePeak(stream, doneNs);

        long index = next[stream];
        long readyNs = nextReadyNs[stream];
        doneBytes[stream] += table.bytesOf(stream, index);
        next[stream] = gaps.skip(stream, index + 1);
        nextReadyNs[stream] = next[stream] < table.chunks(stream) ? table.readyNs(stream, next[stream]) : NEVER;
        inFlight[stream] = false;

        record(service, doneNs - calledNs);
        record(response, doneNs - readyNs);
        worstServiceMs = Math.max(worstServiceMs, (doneNs - calledNs) / 1e6);
        series.call(calledNs, doneNs, onDrive);
        busy(calledNs, doneNs);
        writtenBytes += onDrive;
        operations++;

        stalls.waited(waitingSinceNs, doneNs);
        lastDoneNs = doneNs;
        if (anythingWaiting(doneNs)) {
            waitingSinceNs = doneNs;
        } else {
            waitingSinceNs = NEVER;
            overruns.caughtUp(doneNs);
        }
    }

    /** Books a flush or a change to the next file, which moves no audio. */
    public synchronized void upkeep(long calledNs, long doneNs) {
        refuseIfAbandoned();
        record(flushes, doneNs - calledNs);
        series.flush(calledNs, doneNs);
        busy(calledNs, doneNs);
    }

    /** Books a delay of the loop itself with nothing in flight. */
    public synchronized void hostDelay(long fromNs, long toNs) {
        series.hostDelay(fromNs, toNs);
    }

    /** Brings every stream up to date, for a snapshot or at the end of the take. */
    public synchronized void settle(long nowNs) {
        if (abandoned) {
            return;
        }
        sampleSeconds(nowNs);
        for (int i = 0; i < streams; i++) {
            dropWhatDidNotFit(i, nowNs);
            notePeak(i, nowNs);
        }
    }

    /**
     * Ends the books because a call never came back: settles them at {@code nowNs}, with the open stall, and refuses
     * everything that a late writer still tries.
     *
     * @param calledNs when that call was made
     */
    public synchronized void abandon(long calledNs, long nowNs) {
        if (abandoned) {
            return;
        }
        settle(nowNs);
        if (waitingSinceNs != NEVER) {
            stalls.waited(waitingSinceNs, nowNs);
        }
        series.busy(calledNs, nowNs);
        busy(calledNs, nowNs);
        worstServiceMs = Math.max(worstServiceMs, (nowNs - calledNs) / 1e6);
        overruns.caughtUp(nowNs);
        abandoned = true;
    }

    /**
     * How the take is getting on, cheaply.
     *
     * @param backlogMs largest backlog of any stream right now, in ms of audio
     * @param peakMs largest backlog so far, in ms of audio
     * @param worstServiceMs longest write so far, in ms
     * @param worstLostMs audio lost so far on the worst stream, in ms
     * @param streamsHit streams that have lost audio
     * @param writtenBytes on the drive, with padding
     * @param busyNs time inside calls
     */
    public record Glance(
            double backlogMs,
            double peakMs,
            double worstServiceMs,
            double worstLostMs,
            int streamsHit,
            long writtenBytes,
            long busyNs) {}

    /** A glance at the books. */
    public synchronized Glance glance(long nowNs) {
        double backlogMs = 0;
        double lostMs = 0;
        int hit = 0;
        for (int i = 0; i < streams; i++) {
            backlogMs = Math.max(backlogMs, table.millis(i, held(i, nowNs)));
            lostMs = Math.max(lostMs, table.millis(i, lostBytes[i]));
            hit += lostBytes[i] > 0 ? 1 : 0;
        }
        return new Glance(backlogMs, Math.max(peakMs, backlogMs), worstServiceMs, lostMs, hit, writtenBytes, busyNs);
    }

    /** The figures so far, copied. */
    public synchronized TakeFigures figures(long nowNs) {
        return TakeFigures.of(
                table,
                new TakeFigures.Totals(
                        writtenBytes,
                        operations,
                        Math.min(busyNs, nowNs),
                        peakMs,
                        peakAtNs,
                        peakHostNs,
                        worstServiceMs),
                doneBytes.clone(),
                lostBytes.clone(),
                peakBytes.clone(),
                stalls,
                overruns.listed(nowNs),
                new TakeFigures.Histograms(service.copy(), response.copy(), flushes.copy()),
                series.toSeries());
    }

    private void dropWhatDidNotFit(int stream, long nowNs) {
        long full = doneBytes[stream] + lostBytes[stream] + table.bufferBytes(stream);
        long produced = table.producedBytes(stream, nowNs);
        if (produced <= full) {
            return;
        }
        int chunk = table.chunkBytes(stream);
        long firstLost = full / chunk;
        long count = (produced - full + chunk - 1) / chunk;
        long end = Math.min((firstLost + count) * chunk, table.totalBytes(stream));
        long bytes = end - firstLost * chunk;
        overruns.lost(stream, bytes, table.whenProducedNs(stream, full), waitingSinceNs, nowNs);
        lostBytes[stream] += bytes;
        gaps.add(stream, firstLost, count);
    }

    private long held(int stream, long nowNs) {
        long backlog = table.producedBytes(stream, nowNs) - doneBytes[stream] - lostBytes[stream];
        return Math.max(0, Math.min(backlog, table.bufferBytes(stream)));
    }

    private void notePeak(int stream, long nowNs) {
        boolean lostAny = lostBytes[stream] > 0;
        long held = lostAny && peakBytes[stream] < table.bufferBytes(stream)
                ? table.bufferBytes(stream)
                : held(stream, nowNs);
        peakBytes[stream] = Math.max(peakBytes[stream], held);
        double ms = table.millis(stream, held);
        series.backlog(nowNs, ms);
        if (ms > peakMs) {
            peakMs = ms;
            peakAtNs = nowNs;
            peakHostNs = host.delayNs(nowNs - (long) (ms * 1e6), nowNs);
        }
    }

    private void sampleSeconds(long nowNs) {
        while ((sampledSecond + 1) * SECOND <= nowNs) {
            sampledSecond++;
            long at = sampledSecond * SECOND;
            for (int i = 0; i < streams; i++) {
                series.backlog(at - 1, table.millis(i, held(i, at)));
            }
        }
    }

    private boolean anythingWaiting(long nowNs) {
        for (int step = 1; step <= streams; step++) {
            int stream = last + step;
            stream = stream >= streams ? stream - streams : stream;
            if (nextReadyNs[stream] <= nowNs) {
                return true;
            }
        }
        return false;
    }

    private long earliestReadyNs() {
        long earliest = NEVER;
        for (int i = 0; i < streams; i++) {
            earliest = Math.min(earliest, nextReadyNs[i]);
        }
        return earliest;
    }

    private void busy(long fromNs, long toNs) {
        busyNs += Math.max(0, Math.min(toNs, table.lengthNs()) - Math.max(0, Math.min(fromNs, table.lengthNs())));
    }

    private static void record(Histogram histogram, long ns) {
        histogram.recordValue(Math.min(Math.max(ns, 0), histogram.getHighestTrackableValue()));
    }

    private void refuseIfAbandoned() {
        if (abandoned) {
            throw new AbandonedException();
        }
    }
}

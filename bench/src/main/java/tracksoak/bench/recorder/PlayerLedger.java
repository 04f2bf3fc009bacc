package tracksoak.bench.recorder;

import org.HdrHistogram.Histogram;

/**
 * The books of a player that reads all streams at once: what it has played, what it holds ahead, where it fell silent.
 * Pure arithmetic over the times it is told, all in ns since the playback began; knows no clock, no thread and no drive.
 *
 * <p>The timetable is that of a take, played instead of made: by {@code t} a stream has played {@code r·t} bytes. At the
 * start a track's buffer of B bytes holds as many whole chunks as fit. Chunk n may be asked for as soon as there is room
 * for it, when {@code end_n − B} bytes are played, and is needed when {@code n·c} are. While it is late the track is
 * silent; the playback goes on, and a chunk whose audio is over is not asked for any more.
 *
 * <p>Thread-safe; readers, the monitor and snapshots share it. Allocates nothing once made, but for listed stalls and
 * gaps.
 */
public final class PlayerLedger {

    /** Says that nothing is due. */
    public static final int NOTHING = -1;

    private static final long NEVER = Long.MAX_VALUE;
    private static final long SECOND = 1_000_000_000L;

    private final StreamTable table;
    private final HostWatch host;
    private final int streams;
    private final StallMeter stalls;
    private final OverrunLog gaps;
    private final SecondSeries series;
    private final Histogram service = Histograms.nanoseconds();
    private final Histogram response = Histograms.nanoseconds();
    private final Histogram upkeep = Histograms.nanoseconds();

    private final long[] next;
    private final long[] dueNs;
    private final boolean[] inFlight;
    private final long[] loadedEnd;
    private final long[] accounted;
    private final boolean[] dry;
    private final long[] silentBytes;
    private final long[] readBytes;
    private final long[] leastHeld;

    private int last;
    private long waitingSinceNs = NEVER;
    private long lastDoneNs;
    private long bytes;
    private long operations;
    private long busyNs;
    private long underruns;
    private long sampledSecond;
    private double peakMs;
    private long peakAtNs;
    private long peakHostNs;
    private double worstServiceMs;
    private boolean abandoned;

    /**
     * Opens the books with every buffer full.
     *
     * @param table the timetable
     * @param stallLimitNs an interval in which a chunk may be asked for and none arrives longer than this is a stall, in ns
     * @param host knows the host's share of an interval, on the same zero as the times given here
     */
    public PlayerLedger(StreamTable table, long stallLimitNs, HostWatch host) {
        this.table = table;
        this.host = host;
        this.streams = table.streams();
        this.stalls = new StallMeter(stallLimitNs, host);
        this.gaps = new OverrunLog(table, host);
        this.series = new SecondSeries((int) (table.lengthNs() / SECOND) + 1);
        this.next = new long[streams];
        this.dueNs = new long[streams];
        this.inFlight = new boolean[streams];
        this.loadedEnd = new long[streams];
        this.accounted = new long[streams];
        this.dry = new boolean[streams];
        this.silentBytes = new long[streams];
        this.readBytes = new long[streams];
        this.leastHeld = new long[streams];
        this.last = streams - 1;
        for (int i = 0; i < streams; i++) {
            next[i] = Math.min(table.chunks(i), table.bufferBytes(i) / table.chunkBytes(i));
            loadedEnd[i] = Math.min(table.totalBytes(i), next[i] * table.chunkBytes(i));
            leastHeld[i] = loadedEnd[i];
            dueNs[i] = dueOf(i);
        }
    }

    /** Chunks a stream holds before the playback begins. */
    public long heldAtFirst(int stream) {
        return Math.min(table.chunks(stream), table.bufferBytes(stream) / table.chunkBytes(stream));
    }

    /**
     * Takes the next chunk that may be asked for, in turn after the stream read last, and marks its stream as in flight.
     *
     * @return the stream, or {@link #NOTHING}
     */
    public synchronized int claim(long nowNs) {
        refuseIfAbandoned();
        // before chunks whose audio is over are left out: they, too, could be asked for and did not come
        long waitedForNs = waitingSinceNs == NEVER ? Math.max(lastDoneNs, earliestDueNs()) : waitingSinceNs;
        for (int step = 1; step <= streams; step++) {
            int stream = last + step;
            stream = stream >= streams ? stream - streams : stream;
            if (dueNs[stream] <= nowNs && !inFlight[stream] && stillNeeded(stream, nowNs)) {
                waitingSinceNs = waitedForNs;
                inFlight[stream] = true;
                last = stream;
                return stream;
            }
        }
        return NOTHING;
    }

    /** Leaves out chunks whose audio is over; false if none is left. */
    private boolean stillNeeded(int stream, long nowNs) {
        long playing = table.producedBytes(stream, nowNs) / table.chunkBytes(stream);
        if (playing > next[stream]) {
            next[stream] = Math.min(playing, table.chunks(stream));
            dueNs[stream] = dueOf(stream);
        }
        return next[stream] < table.chunks(stream);
    }

    /** When the next chunk that nobody has claimed may be asked for, or {@code Long.MAX_VALUE} if none is left. */
    public synchronized long nextDueNs() {
        long earliest = NEVER;
        for (int i = 0; i < streams; i++) {
            if (!inFlight[i]) {
                earliest = Math.min(earliest, dueNs[i]);
            }
        }
        return earliest;
    }

    /** Number of the chunk a stream has in flight. */
    public synchronized long claimedChunk(int stream) {
        return next[stream];
    }

    /** Audio in the chunk a stream has in flight, in bytes. */
    public synchronized int claimedBytes(int stream) {
        return table.bytesOf(stream, next[stream]);
    }

    /**
     * Books a chunk that has arrived.
     *
     * @param stream that was claimed
     * @param calledNs when the read was called
     * @param doneNs when it came back
     * @param fromDrive bytes read, with padding
     */
    public synchronized void arrived(int stream, long calledNs, long doneNs, int fromDrive) {
        refuseIfAbandoned();
        sampleSeconds(doneNs);
        play(stream, doneNs);
        noteHeld(stream, doneNs);

        long wasDueNs = dueNs[stream];
        long end = Math.min((next[stream] + 1) * table.chunkBytes(stream), table.totalBytes(stream));
        readBytes[stream] += table.bytesOf(stream, next[stream]);
        loadedEnd[stream] = Math.max(loadedEnd[stream], end);
        dry[stream] &= loadedEnd[stream] <= accounted[stream];
        next[stream]++;
        dueNs[stream] = dueOf(stream);
        inFlight[stream] = false;

        record(service, doneNs - calledNs);
        record(response, doneNs - wasDueNs);
        worstServiceMs = Math.max(worstServiceMs, (doneNs - calledNs) / 1e6);
        series.call(calledNs, doneNs, fromDrive);
        busy(calledNs, doneNs);
        bytes += fromDrive;
        operations++;

        stalls.waited(waitingSinceNs, doneNs);
        lastDoneNs = doneNs;
        if (earliestDueNs() <= doneNs) {
            waitingSinceNs = doneNs;
        } else {
            waitingSinceNs = NEVER;
            gaps.caughtUp(doneNs);
        }
    }

    /** Books a change to the next file, or anything else that keeps the drive busy and brings no audio. */
    public synchronized void upkeep(long calledNs, long doneNs) {
        refuseIfAbandoned();
        record(upkeep, doneNs - calledNs);
        series.busy(calledNs, doneNs);
        busy(calledNs, doneNs);
    }

    /** Books a delay of the loop itself with nothing in flight. */
    public synchronized void hostDelay(long fromNs, long toNs) {
        series.hostDelay(fromNs, toNs);
    }

    /** Brings every stream up to date, for a snapshot or at the end of the playback. */
    public synchronized void settle(long nowNs) {
        if (abandoned) {
            return;
        }
        sampleSeconds(nowNs);
        for (int i = 0; i < streams; i++) {
            play(i, nowNs);
            if (dueNs[i] <= nowNs) {
                noteHeld(i, nowNs);
            }
        }
    }

    /** Ends the books because a call never came back; see {@link RecorderLedger#abandon}. */
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
        gaps.caughtUp(nowNs);
        abandoned = true;
    }

    /** A glance at the books: the backlog is what the fullest shortfall of any buffer is, in ms of audio. */
    public synchronized RecorderLedger.Glance glance(long nowNs) {
        double lackingMs = 0;
        double silentMs = 0;
        int hit = 0;
        for (int i = 0; i < streams; i++) {
            lackingMs = Math.max(lackingMs, dueNs[i] == NEVER ? 0 : lackingMs(i, nowNs));
            silentMs = Math.max(silentMs, table.millis(i, silentBytes[i]));
            hit += silentBytes[i] > 0 ? 1 : 0;
        }
        return new RecorderLedger.Glance(
                lackingMs, Math.max(peakMs, lackingMs), worstServiceMs, silentMs, hit, bytes, busyNs);
    }

    /** The figures so far, copied; what is lost is silence, the backlog is what a buffer lacked. */
    public synchronized PlayerFigures figures(long nowNs) {
        double leastMs = Double.MAX_VALUE;
        long[] lacked = new long[streams];
        for (int i = 0; i < streams; i++) {
            leastMs = Math.min(leastMs, table.millis(i, leastHeld[i]));
            lacked[i] = table.bufferBytes(i) - leastHeld[i];
        }
        TakeFigures books = TakeFigures.of(
                table,
                new TakeFigures.Totals(
                        bytes, operations, Math.min(busyNs, nowNs), peakMs, peakAtNs, peakHostNs, worstServiceMs),
                readBytes.clone(),
                silentBytes.clone(),
                lacked,
                stalls,
                gaps.listed(nowNs),
                new TakeFigures.Histograms(service.copy(), response.copy(), upkeep.copy()),
                series.toSeries());
        return new PlayerFigures(books, underruns, leastMs);
    }

    /** Plays a stream up to a moment; what it does not hold by then is silence. */
    private void play(int stream, long nowNs) {
        long played = table.producedBytes(stream, nowNs);
        long from = Math.max(accounted[stream], loadedEnd[stream]);
        if (played > from) {
            silentBytes[stream] += played - from;
            underruns += dry[stream] ? 0 : 1;
            dry[stream] = true;
            gaps.lost(stream, played - from, table.whenProducedNs(stream, from), waitingSinceNs, nowNs);
        }
        accounted[stream] = Math.max(accounted[stream], played);
    }

    private void noteHeld(int stream, long nowNs) {
        long held = Math.max(0, loadedEnd[stream] - table.producedBytes(stream, nowNs));
        leastHeld[stream] = Math.min(leastHeld[stream], held);
        double ms = lackingMs(stream, nowNs);
        series.backlog(nowNs, ms);
        if (ms > peakMs) {
            peakMs = ms;
            peakAtNs = nowNs;
            peakHostNs = host.delayNs(nowNs - (long) (ms * 1e6), nowNs);
        }
    }

    private double lackingMs(int stream, long nowNs) {
        long held = Math.max(0, loadedEnd[stream] - table.producedBytes(stream, nowNs));
        return table.millis(stream, Math.max(0, table.bufferBytes(stream) - held));
    }

    private void sampleSeconds(long nowNs) {
        while ((sampledSecond + 1) * SECOND <= nowNs) {
            sampledSecond++;
            long at = sampledSecond * SECOND;
            for (int i = 0; i < streams; i++) {
                series.backlog(at - 1, dueNs[i] == NEVER ? 0 : lackingMs(i, at));
            }
        }
    }

    private long dueOf(int stream) {
        if (next[stream] >= table.chunks(stream)) {
            return NEVER;
        }
        long end = Math.min((next[stream] + 1) * table.chunkBytes(stream), table.totalBytes(stream));
        return table.whenProducedNs(stream, Math.max(0, end - table.bufferBytes(stream)));
    }

    private long earliestDueNs() {
        long earliest = NEVER;
        for (int i = 0; i < streams; i++) {
            earliest = Math.min(earliest, dueNs[i]);
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

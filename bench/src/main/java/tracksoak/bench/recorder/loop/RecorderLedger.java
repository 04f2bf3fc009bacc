package tracksoak.bench.recorder.loop;

import tracksoak.bench.recorder.watch.HostWatch;

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

    private final StreamTable table;
    private final int streams;
    private final CallBooks books;
    private final RoundRobin turns;
    private final long[] next;
    private final long[] doneBytes;
    private final long[] lostBytes;
    private final long[] peakBytes;
    private final GapQueue gaps;

    /**
     * Opens the books.
     *
     * @param table the timetable
     * @param stallLimitNs an interval without a finished chunk longer than this is a stall, in ns
     * @param host knows the host's share of an interval, on the same zero as the times given here
     */
    public RecorderLedger(StreamTable table, long stallLimitNs, HostWatch host) {
        this(table, stallLimitNs, host, new InFlight(table.lengthNs()));
    }

    /** The same beside other books of the same drive: {@code inFlight} counts the calls of all. */
    public RecorderLedger(StreamTable table, long stallLimitNs, HostWatch host, InFlight inFlight) {
        this.table = table;
        this.streams = table.streams();
        this.books = new CallBooks(table, stallLimitNs, host, inFlight);
        this.turns = new RoundRobin(streams);
        this.next = new long[streams];
        this.doneBytes = new long[streams];
        this.lostBytes = new long[streams];
        this.peakBytes = new long[streams];
        this.gaps = new GapQueue(table);
        for (int i = 0; i < streams; i++) {
            turns.next(i, readyNs(i));
        }
    }

    /**
     * Takes the next ready chunk, in turn after the stream written last, and marks its stream as in flight.
     *
     * @return the stream, or {@link #NOTHING}
     */
    public synchronized int claim(long nowNs) {
        books.refuseIfAbandoned();
        for (int step = 1; step <= streams; step++) {
            int stream = turns.after(step);
            if (turns.waits(stream, nowNs)) {
                books.waitsSince(books.waitedForNs(turns));
                turns.take(stream);
                return stream;
            }
        }
        return NOTHING;
    }

    /** When the next chunk that nobody has claimed is ready, or {@code Long.MAX_VALUE} if none is left. */
    public synchronized long nextReadyNs() {
        return turns.earliestFreeNs();
    }

    /** A call is about to be made at {@code ns}; {@link #done} or {@link #upkeep} says when it came back. */
    public void calls(long ns) {
        books.calls(ns);
    }

    /** The take ends sooner than planned; see {@link StreamTable#endBy}. */
    public synchronized void endBy(long endNs) {
        table.endBy(endNs);
        for (int i = 0; i < streams; i++) {
            turns.next(i, readyNs(i));
        }
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
        books.refuseIfAbandoned();
        sampleSeconds(doneNs);
        dropWhatDidNotFit(stream, doneNs);
        notePeak(stream, doneNs);

        long wasReadyNs = turns.dueNs(stream);
        doneBytes[stream] += table.bytesOf(stream, next[stream]);
        next[stream] = gaps.skip(stream, next[stream] + 1);
        turns.next(stream, readyNs(stream));
        turns.giveBack(stream);
        books.moved(wasReadyNs, calledNs, doneNs, onDrive, turns.anyDue(doneNs));
    }

    /** Books a flush or a change to the next file, which moves no audio. */
    public synchronized void upkeep(long calledNs, long doneNs) {
        books.refuseIfAbandoned();
        books.flushed(calledNs, doneNs);
    }

    /** Books the making of a file at the beginning; {@link #calls} said when it was begun. */
    public synchronized void made(long calledNs, long doneNs) {
        books.refuseIfAbandoned();
        books.changedFile(calledNs, doneNs);
    }

    /** Books a delay of the loop itself with nothing in flight. */
    public synchronized void hostDelay(long fromNs, long toNs) {
        books.hostDelay(fromNs, toNs);
    }

    /** Brings every stream up to date, for a snapshot or at the end of the take. */
    public synchronized void settle(long nowNs) {
        if (books.abandoned()) {
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
        if (!books.abandoned()) {
            settle(nowNs);
            books.abandon(calledNs, nowNs);
        }
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
        for (int i = 0; i < streams; i++) {
            backlogMs = Math.max(backlogMs, table.millis(i, held(i, nowNs)));
        }
        return books.glance(backlogMs, lostBytes);
    }

    /** The figures so far, copied. */
    public synchronized TakeFigures figures(long nowNs) {
        return books.figures(nowNs, doneBytes, lostBytes, peakBytes);
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
        books.lost(stream, bytes, table.whenProducedNs(stream, full), nowNs);
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
        books.backlog(nowNs, table.millis(stream, held));
    }

    private void sampleSeconds(long nowNs) {
        while (books.nextSecond(nowNs)) {
            for (int i = 0; i < streams; i++) {
                books.sample(table.millis(i, held(i, books.secondNs())));
            }
        }
    }

    private long readyNs(int stream) {
        return next[stream] < table.chunks(stream) ? table.readyNs(stream, next[stream]) : RoundRobin.NEVER;
    }
}

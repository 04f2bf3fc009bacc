package tracksoak.bench.recorder.loop;

import tracksoak.bench.recorder.watch.HostWatch;

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

    private final StreamTable table;
    private final int streams;
    private final CallBooks books;
    private final RoundRobin turns;
    private final long[] next;
    private final long[] loadedEnd;
    private final long[] accounted;
    private final boolean[] dry;
    private final long[] silentBytes;
    private final long[] readBytes;
    private final long[] leastHeld;
    private long underruns;

    /**
     * Opens the books with every buffer full.
     *
     * @param table the timetable
     * @param stallLimitNs an interval in which a chunk may be asked for and none arrives longer than this is a stall, in ns
     * @param host knows the host's share of an interval, on the same zero as the times given here
     * @param inFlight counts the calls of all books of the same drive
     */
    public PlayerLedger(StreamTable table, long stallLimitNs, HostWatch host, InFlight inFlight) {
        this.table = table;
        this.streams = table.streams();
        this.books = new CallBooks(table, stallLimitNs, host, inFlight);
        this.turns = new RoundRobin(streams);
        this.next = new long[streams];
        this.loadedEnd = new long[streams];
        this.accounted = new long[streams];
        this.dry = new boolean[streams];
        this.silentBytes = new long[streams];
        this.readBytes = new long[streams];
        this.leastHeld = new long[streams];
        for (int i = 0; i < streams; i++) {
            next[i] = heldAtFirst(i);
            loadedEnd[i] = Math.min(table.totalBytes(i), next[i] * table.chunkBytes(i));
            leastHeld[i] = loadedEnd[i];
            turns.next(i, dueOf(i));
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
        books.refuseIfAbandoned();
        // before chunks whose audio is over are left out: they, too, could be asked for and did not come
        long waitedForNs = books.waitedForNs(turns);
        for (int step = 1; step <= streams; step++) {
            int stream = turns.after(step);
            if (turns.waits(stream, nowNs) && stillNeeded(stream, nowNs)) {
                books.waitsSince(waitedForNs);
                turns.take(stream);
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
            turns.next(stream, dueOf(stream));
        }
        return next[stream] < table.chunks(stream);
    }

    /** When the next chunk that nobody has claimed may be asked for, or {@code Long.MAX_VALUE} if none is left. */
    public synchronized long nextDueNs() {
        return turns.earliestFreeNs();
    }

    /** A call is about to be made at {@code ns}; {@link #arrived} or {@link #upkeep} says when it came back. */
    public void calls(long ns) {
        books.calls(ns);
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
        books.refuseIfAbandoned();
        sampleSeconds(doneNs);
        play(stream, doneNs);
        noteHeld(stream, doneNs);

        long wasDueNs = turns.dueNs(stream);
        readBytes[stream] += table.bytesOf(stream, next[stream]);
        loadedEnd[stream] = Math.max(loadedEnd[stream], endOf(stream));
        dry[stream] &= loadedEnd[stream] <= accounted[stream];
        next[stream]++;
        turns.next(stream, dueOf(stream));
        turns.giveBack(stream);
        books.moved(wasDueNs, calledNs, doneNs, fromDrive, turns.anyDue(doneNs));
    }

    /** Books a change to the next file, or anything else that keeps the drive busy and brings no audio. */
    public synchronized void upkeep(long calledNs, long doneNs) {
        books.refuseIfAbandoned();
        books.changedFile(calledNs, doneNs);
    }

    /** Books a delay of the loop itself with nothing in flight. */
    public synchronized void hostDelay(long fromNs, long toNs) {
        books.hostDelay(fromNs, toNs);
    }

    /** Brings every stream up to date, for a snapshot or at the end of the playback. */
    public synchronized void settle(long nowNs) {
        if (books.abandoned()) {
            return;
        }
        sampleSeconds(nowNs);
        for (int i = 0; i < streams; i++) {
            play(i, nowNs);
            if (turns.dueNs(i) <= nowNs) {
                noteHeld(i, nowNs);
            }
        }
    }

    /** Ends the books because a call never came back; see {@link RecorderLedger#abandon}. */
    public synchronized void abandon(long calledNs, long nowNs) {
        if (!books.abandoned()) {
            settle(nowNs);
            books.abandon(calledNs, nowNs);
        }
    }

    /** A glance at the books: the backlog is what the fullest shortfall of any buffer is, in ms of audio. */
    public synchronized RecorderLedger.Glance glance(long nowNs) {
        double lackingMs = 0;
        for (int i = 0; i < streams; i++) {
            lackingMs = Math.max(lackingMs, lackingMs(i, nowNs));
        }
        return books.glance(lackingMs, silentBytes);
    }

    /** The figures so far, copied; what is lost is silence, the backlog is what a buffer lacked. */
    public synchronized PlayerFigures figures(long nowNs) {
        double leastMs = Double.MAX_VALUE;
        long[] lacked = new long[streams];
        for (int i = 0; i < streams; i++) {
            leastMs = Math.min(leastMs, table.millis(i, leastHeld[i]));
            lacked[i] = table.bufferBytes(i) - leastHeld[i];
        }
        return new PlayerFigures(books.figures(nowNs, readBytes, silentBytes, lacked), underruns, leastMs);
    }

    /** Plays a stream up to a moment; what it does not hold by then is silence. */
    private void play(int stream, long nowNs) {
        long played = table.producedBytes(stream, nowNs);
        long from = Math.max(accounted[stream], loadedEnd[stream]);
        if (played > from) {
            silentBytes[stream] += played - from;
            underruns += dry[stream] ? 0 : 1;
            dry[stream] = true;
            books.lost(stream, played - from, table.whenProducedNs(stream, from), nowNs);
        }
        accounted[stream] = Math.max(accounted[stream], played);
    }

    private void noteHeld(int stream, long nowNs) {
        long held = Math.max(0, loadedEnd[stream] - table.producedBytes(stream, nowNs));
        leastHeld[stream] = Math.min(leastHeld[stream], held);
        books.backlog(nowNs, lackingMs(stream, nowNs));
    }

    /** What a stream's buffer lacks, in ms of audio; nothing once all of its audio has arrived. */
    private double lackingMs(int stream, long nowNs) {
        if (turns.dueNs(stream) == RoundRobin.NEVER) {
            return 0;
        }
        long held = Math.max(0, loadedEnd[stream] - table.producedBytes(stream, nowNs));
        return table.millis(stream, Math.max(0, table.bufferBytes(stream) - held));
    }

    private void sampleSeconds(long nowNs) {
        while (books.nextSecond(nowNs)) {
            for (int i = 0; i < streams; i++) {
                books.sample(lackingMs(i, books.secondNs()));
            }
        }
    }

    private long dueOf(int stream) {
        return next[stream] < table.chunks(stream)
                ? table.whenProducedNs(stream, Math.max(0, endOf(stream) - table.bufferBytes(stream)))
                : RoundRobin.NEVER;
    }

    /** Where a stream's next chunk ends, in bytes of its audio. */
    private long endOf(int stream) {
        return Math.min((next[stream] + 1) * table.chunkBytes(stream), table.totalBytes(stream));
    }
}

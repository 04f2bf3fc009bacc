package tracksoak.bench.recorder.loop;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.base.NanoClock;

/**
 * The recorder: takes ready chunks in turn, writes them, flushes each file at its interval. One {@link #step} does one
 * thing and never waits, so a thread drives it on a real drive and a virtual clock in tests. Several loops may share a
 * ledger: that many writes are then in flight.
 */
public final class RecorderLoop {

    /** Returned by {@link #step} when nothing is left to do. */
    public static final long OVER = Long.MAX_VALUE;

    private final RecorderLedger ledger;
    private final StreamTable table;
    private final StreamFiles files;
    private final ChunkStamper stamper;
    private final FlushSchedule flushes;
    private final NanoClock clock;
    private final DelayLog ownDelays;
    private final int alignment;
    private final long startNs;
    private long dueNs;
    private long deletingNs;

    /**
     * A loop about to start.
     *
     * @param startNs when the take begins, on {@code clock}
     * @param flushes shared by the loops of one take
     * @param ownDelays where the loop notes that it came late itself
     * @param alignment of what is written, in bytes
     */
    public RecorderLoop(
            RecorderLedger ledger,
            StreamTable table,
            StreamFiles files,
            ChunkStamper stamper,
            FlushSchedule flushes,
            NanoClock clock,
            DelayLog ownDelays,
            int alignment,
            long startNs) {
        this.ledger = ledger;
        this.table = table;
        this.files = files;
        this.stamper = stamper;
        this.flushes = flushes;
        this.clock = clock;
        this.ownDelays = ownDelays;
        this.alignment = alignment;
        this.startNs = startNs;
        this.dueNs = Math.max(startNs, clock.nanoTime());
    }

    /**
     * Does the next thing of the take.
     *
     * @return when to come again, on the clock; {@link #OVER} once the take has reached its end
     * @throws IOException what the drive answered
     */
    public long step() throws IOException {
        long now = clock.nanoTime();
        noteOwnDelay(now);
        if (now - startNs >= table.lengthNs()) {
            return OVER;
        }
        if (writeOne(now)) {
            dueNs = 0;
            return now;
        }
        dueNs = startNs + Math.min(ledger.nextReadyNs(), table.lengthNs());
        return dueNs;
    }

    /**
     * Writes one chunk of what is left after the end of the take.
     *
     * @return false if nothing was left
     */
    public boolean drainOne() throws IOException {
        return writeOne(clock.nanoTime());
    }

    /** Writes all that is left after the end of the take. */
    public void drain() throws IOException {
        boolean more = true;
        while (more) {
            more = drainOne();
        }
    }

    private boolean writeOne(long now) throws IOException {
        int stream = ledger.claim(now - startNs);
        if (stream == RecorderLedger.NOTHING) {
            return false;
        }
        int bytes = StreamTable.roundUp(ledger.claimedBytes(stream), alignment);
        if (files.mustSplit(stream, bytes)) {
            split(stream);
        }
        if (files.wantsSpace(stream, bytes)) {
            long called = clock.nanoTime();
            ledger.calls(called - startNs);
            files.giveSpace(stream, bytes);
            ledger.upkeep(called - startNs, clock.nanoTime() - startNs);
        }
        ByteBuffer chunk = stamper.stamp(stream, files.pass(), files.nextBlock(stream), bytes);
        long called = clock.nanoTime();
        ledger.calls(called - startNs);
        files.append(stream, chunk);
        long done = clock.nanoTime();
        ledger.done(stream, called - startNs, done - startNs, bytes);
        if (flushes.due(stream, done)) {
            ledger.calls(done - startNs);
            files.flush(stream);
            long flushed = clock.nanoTime();
            flushes.flushed(stream, flushed);
            ledger.upkeep(done - startNs, flushed - startNs);
        }
        if (flushes.headerDue(stream, done)) {
            long before = clock.nanoTime();
            ledger.calls(before - startNs);
            files.rewriteHeader(stream);
            long written = clock.nanoTime();
            flushes.headerWritten(stream, written);
            ledger.upkeep(before - startNs, written - startNs);
        }
        return true;
    }

    /** Goes on in the next file. Making room for it is the bench's own doing and not what a session asks of a drive. */
    private void split(int stream) throws IOException {
        long called = clock.nanoTime();
        ledger.calls(called - startNs);
        files.finish(stream);
        if (files.mustMakeRoom(stream)) {
            long finished = clock.nanoTime();
            ledger.upkeep(called - startNs, finished - startNs);
            files.deleteOldest(stream);
            called = clock.nanoTime();
            deletingNs += called - finished;
            ownDelays.late(finished, called);
            ledger.hostDelay(finished - startNs, called - startNs);
            ledger.calls(called - startNs);
        }
        files.begin(stream);
        ledger.upkeep(called - startNs, clock.nanoTime() - startNs);
    }

    /** Time spent deleting old files to make room, in ns. */
    public long deletingNs() {
        return deletingNs;
    }

    private void noteOwnDelay(long now) {
        if (dueNs != 0 && now - dueNs > DelayLog.SLACK_NS) {
            ownDelays.late(dueNs, now);
            ledger.hostDelay(dueNs - startNs, now - startNs);
        }
    }
}

package tracksoak.bench.recorder.loop;

import java.io.IOException;
import java.nio.ByteBuffer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.stream.StreamReader;
import tracksoak.profiles.base.NanoClock;

/**
 * The player: reads chunks in turn as there is room for them, and, in a mixdown, writes the chunks of the mix between
 * them, one read and one write in turn where both wait. One {@link #step} does one of each at most and never waits.
 * Several loops may share the ledgers.
 */
public final class PlayerLoop {

    /** Returned by {@link #step} when nothing is left to do. */
    public static final long OVER = Long.MAX_VALUE;

    private final PlayerLedger ledger;
    private final StreamTable table;
    private final StreamReader reader;
    private final ByteBuffer buffer;
    private final @Nullable Mix mix;
    private final NanoClock clock;
    private final DelayLog ownDelays;
    private final int alignment;
    private final long startNs;
    private long dueNs;

    /**
     * The writing half of a mixdown.
     *
     * @param books of the mix
     * @param loop writes its chunks
     */
    public record Mix(RecorderLedger books, RecorderLoop loop) {}

    /**
     * A loop about to start.
     *
     * @param buffer aligned, holds the largest chunk
     * @param mix null where nothing is written meanwhile
     * @param ownDelays where the loop notes that it came late itself
     * @param alignment of what is read, in bytes
     * @param startNs when the playback begins, on {@code clock}
     */
    public PlayerLoop(
            PlayerLedger ledger,
            StreamTable table,
            StreamReader reader,
            ByteBuffer buffer,
            @Nullable Mix mix,
            NanoClock clock,
            DelayLog ownDelays,
            int alignment,
            long startNs) {
        this.ledger = ledger;
        this.table = table;
        this.reader = reader;
        this.buffer = buffer;
        this.mix = mix;
        this.clock = clock;
        this.ownDelays = ownDelays;
        this.alignment = alignment;
        this.startNs = startNs;
        this.dueNs = startNs;
    }

    /**
     * Does the next thing of the playback.
     *
     * @return when to come again, on the clock; {@link #OVER} once it has reached its end
     * @throws IOException what the drive answered
     */
    public long step() throws IOException {
        long now = clock.nanoTime();
        noteOwnDelay(now);
        if (now - startNs >= table.lengthNs()) {
            return OVER;
        }
        boolean did = readOne(now - startNs);
        long nextNs = ledger.nextDueNs();
        if (mix != null) {
            did |= mix.loop().drainOne();
            nextNs = Math.min(nextNs, mix.books().nextReadyNs());
        }
        if (did) {
            dueNs = 0;
            return clock.nanoTime();
        }
        dueNs = startNs + Math.min(nextNs, table.lengthNs());
        return dueNs;
    }

    private boolean readOne(long nowNs) throws IOException {
        int stream = ledger.claim(nowNs);
        if (stream == PlayerLedger.NOTHING) {
            return false;
        }
        long at = ledger.claimedChunk(stream) * table.chunkBytes(stream);
        if (reader.mustMove(stream, at)) {
            long called = clock.nanoTime();
            ledger.calls(called - startNs);
            reader.begin(stream, at);
            ledger.upkeep(called - startNs, clock.nanoTime() - startNs);
        }
        int bytes = StreamTable.roundUp(ledger.claimedBytes(stream), alignment);
        buffer.clear().limit(bytes);
        long called = clock.nanoTime();
        ledger.calls(called - startNs);
        int got = reader.read(stream, at, buffer);
        long done = clock.nanoTime();
        if (got < ledger.claimedBytes(stream)) {
            throw new IOException("a file of stream " + (stream + 1) + " ends early: " + got + " of " + bytes + " B");
        }
        ledger.arrived(stream, called - startNs, done - startNs, bytes);
        return true;
    }

    private void noteOwnDelay(long now) {
        if (dueNs != 0 && now - dueNs > DelayLog.SLACK_NS) {
            ownDelays.late(dueNs, now);
            ledger.hostDelay(dueNs - startNs, now - startNs);
        }
    }
}

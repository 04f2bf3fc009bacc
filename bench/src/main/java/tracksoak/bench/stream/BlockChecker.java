package tracksoak.bench.stream;

import java.nio.ByteBuffer;
import java.util.zip.CRC32C;

/** Tells what a block read back is, by its stamp and checksum. Allocates nothing per block. One thread each. */
public final class BlockChecker {

    private final long run;
    private final boolean bodies;
    private final CRC32C crc = new CRC32C();

    /**
     * Checks blocks of one run.
     *
     * @param run identity of the run
     * @param bodies false where the drive keeps no bodies: a sound block then carries the checksum 0
     */
    public BlockChecker(long run, boolean bodies) {
        this.run = run;
        this.bodies = bodies;
    }

    /**
     * Looks at one block. Position and limit of the buffer are changed.
     *
     * @param chunk little-endian buffer
     * @param at where the block begins
     */
    public BlockState check(ByteBuffer chunk, int at, int stream, int pass, long number) {
        chunk.limit(chunk.capacity());
        long passAndMagic = chunk.getLong(at + 24);
        if ((int) (passAndMagic >>> 32) != Stamp.MAGIC) {
            return uniform(chunk, at) ? BlockState.MISSING : BlockState.FLIPPED;
        }
        int expected = bodies ? Stamp.crcOf(chunk, at, crc) : 0;
        long crcAndStream = chunk.getLong(at);
        if ((int) crcAndStream != expected) {
            return BlockState.FLIPPED;
        }
        if (chunk.getLong(at + 8) != run) {
            return BlockState.STALE;
        }
        boolean here = (int) (crcAndStream >>> 32) == stream && chunk.getLong(at + 16) == number;
        int claimed = (int) passAndMagic;
        if (here && claimed < pass) {
            return BlockState.STALE;
        }
        return here && claimed == pass ? BlockState.GOOD : BlockState.MISPLACED;
    }

    /** Whose block it claims to be, for people to read. */
    public static String claim(ByteBuffer chunk, int at) {
        return "block " + chunk.getLong(at + 16) + " of stream " + (chunk.getInt(at + 4) + 1) + ", pass "
                + chunk.getInt(at + 24);
    }

    private boolean uniform(ByteBuffer chunk, int at) {
        int length = bodies ? Stamp.BLOCK : Stamp.LENGTH;
        long first = chunk.getLong(at);
        if (first != 0 && first != -1) {
            return false;
        }
        for (int offset = Long.BYTES; offset < length; offset += Long.BYTES) {
            if (chunk.getLong(at + offset) != first) {
                return false;
            }
        }
        return true;
    }
}

package tracksoak.bench.stream;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.zip.CRC32C;

/**
 * The stamp at the head of every 4 KiB block, little-endian, 32 bytes:
 *
 * <pre>
 *  0  int   CRC-32C (RFC 3720) of the block with this field as 0
 *  4  int   stream
 *  8  long  run
 * 16  long  block number within the stream's pass, from 0
 * 24  int   pass
 * 28  int   {@link #MAGIC}
 * </pre>
 *
 * The CRC alone would miss a wrapped or stale block, so the other fields are compared as well.
 */
public final class Stamp {

    /** Block size in bytes. */
    public static final int BLOCK = 4096;

    /** Length of the stamp in bytes. */
    public static final int LENGTH = 32;

    /** Says that a block was written by this bench. */
    public static final int MAGIC = 0x4b414f53;

    /** What lies at the head of a block changes its checksum as a checksum of it would, a block further on. */
    private static final ChecksumJoin FIELD = new ChecksumJoin(BLOCK);

    private Stamp() {}

    /** Writes the stamp at {@code at} into a little-endian buffer with a CRC of 0, for drives that keep no bodies. */
    public static void header(ByteBuffer block, int at, long run, int stream, int pass, long number) {
        block.putLong(at, (long) stream << 32)
                .putLong(at + 8, run)
                .putLong(at + 16, number)
                .putLong(at + 24, (long) MAGIC << 32 | Integer.toUnsignedLong(pass));
    }

    /**
     * CRC-32C of the block at {@code at}, its checksum field taken as 0. The block is read as it lies there, in one aligned
     * piece; what the field itself adds is taken off again, for a checksum is linear. So nothing is written into memory that is
     * read at once, which would make each block wait. Leaves position and limit changed.
     */
    public static int crcOf(ByteBuffer block, int at, CRC32C crc) {
        crc.reset();
        crc.update(block.limit(at + BLOCK).position(at));
        return FIELD.join(block.getInt(at), (int) crc.getValue());
    }

    /** Sets the byte order a stamped buffer must have, and returns the buffer. */
    public static ByteBuffer ordered(ByteBuffer buffer) {
        return buffer.order(ByteOrder.LITTLE_ENDIAN);
    }
}

package tracksoak.bench.stream;

import java.nio.ByteBuffer;
import java.util.SplittableRandom;
import java.util.zip.CRC32C;

/**
 * Makes the bytes of chunks: one reusable, aligned, off-heap buffer whose blocks carry pseudo-random bodies and are
 * stamped afresh for every chunk. Nothing is allocated after construction. One thread each.
 *
 * <p>A body stays as it is for the whole run, so its checksum is worked out once and joined to that of each new stamp.
 * Bodies are incompressible and differ from block to block of a chunk; the stamp makes every block of a run unique.
 */
public final class ChunkStamper {

    private static final ChecksumJoin JOIN = new ChecksumJoin(Stamp.BLOCK - Stamp.LENGTH);

    private final ByteBuffer buffer;
    private final long run;
    private final boolean bodies;
    private final int[] bodyCrc;
    private final CRC32C crc = new CRC32C();

    /**
     * Fills the bodies.
     *
     * @param run identity of the run that every stamp carries
     * @param seed of the bodies
     * @param bodies false where the drive keeps no bodies: only the first block's stamp is written then, and the others count up
     * @param largestChunk in bytes, a multiple of {@link Stamp#BLOCK}
     * @param alignment of the buffer's address in bytes, a power of two
     */
    public ChunkStamper(long run, long seed, boolean bodies, int largestChunk, int alignment) {
        this.run = run;
        this.bodies = bodies;
        this.buffer = AlignedBuffer.allocate(largestChunk, alignment);
        this.bodyCrc = new int[bodies ? largestChunk / Stamp.BLOCK : 0];
        if (bodies) {
            SplittableRandom random = new SplittableRandom(seed);
            for (int at = 0; at < largestChunk; at += Long.BYTES) {
                buffer.putLong(at, random.nextLong());
            }
            for (int block = 0; block < bodyCrc.length; block++) {
                bodyCrc[block] = crcBetween(block * Stamp.BLOCK + Stamp.LENGTH, (block + 1) * Stamp.BLOCK);
            }
        }
    }

    /**
     * The chunk's bytes, from position 0 to limit {@code bytes}; good until the next call.
     *
     * @param stream the chunk belongs to
     * @param pass of the run
     * @param firstBlock number of the chunk's first block within stream and pass
     * @param bytes length, a multiple of {@link Stamp#BLOCK}
     */
    public ByteBuffer stamp(int stream, int pass, long firstBlock, int bytes) {
        buffer.clear();
        if (!bodies) {
            Stamp.header(buffer, 0, run, stream, pass, firstBlock);
            return buffer.limit(bytes);
        }
        for (int at = 0; at < bytes; at += Stamp.BLOCK) {
            Stamp.header(buffer, at, run, stream, pass, firstBlock + at / Stamp.BLOCK);
            int stampCrc = crcBetween(at, at + Stamp.LENGTH);
            buffer.putInt(at, JOIN.join(stampCrc, bodyCrc[at / Stamp.BLOCK]));
        }
        return buffer.limit(bytes).position(0);
    }

    /** Leaves the buffer's limit at its end. */
    private int crcBetween(int from, int to) {
        crc.reset();
        crc.update(buffer.limit(to).position(from));
        buffer.clear();
        return (int) crc.getValue();
    }
}

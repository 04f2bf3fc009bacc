package tracksoak.bench.stream;

import java.nio.ByteBuffer;

/** Off-heap buffers as direct I/O wants them. */
public final class AlignedBuffer {

    private AlignedBuffer() {}

    /**
     * A little-endian buffer off the heap.
     *
     * @param bytes capacity
     * @param alignment of the address in bytes, a power of two
     */
    public static ByteBuffer allocate(int bytes, int alignment) {
        ByteBuffer aligned = ByteBuffer.allocateDirect(bytes + alignment).alignedSlice(alignment);
        return Stamp.ordered(aligned.slice(0, bytes));
    }
}

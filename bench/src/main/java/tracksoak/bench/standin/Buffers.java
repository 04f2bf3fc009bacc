package tracksoak.bench.standin;

import java.nio.ByteBuffer;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import org.jspecify.annotations.Nullable;

/** Lends buffers up to a bound, whatever the clients ask for. Confined to one thread. */
final class Buffers {

    /** Most bytes lent at once. */
    static final long MOST_BYTES = 2L * Nbd.MOST_BYTES;

    /** Larger ones are given back to the system. */
    private static final int LARGEST_KEPT = 1 << 20;

    private static final int MOST_KEPT = 32;
    private static final int SMALLEST = 4096;

    private final Deque<ByteBuffer> kept = new ArrayDeque<>();
    private long lentBytes;

    /** A buffer with so many bytes before its limit; null if too much is lent already. */
    @Nullable
    ByteBuffer lend(int bytes) {
        int capacity = Math.max(SMALLEST, Integer.highestOneBit(Math.max(1, bytes - 1)) << 1);
        if (lentBytes + capacity > MOST_BYTES) {
            return null;
        }
        ByteBuffer found = keptOne(capacity);
        if (found == null) {
            found = ByteBuffer.allocateDirect(capacity);
        }
        lentBytes += capacity;
        found.clear().limit(bytes);
        return found;
    }

    /** Takes out by place: buffers of equal content are equal, and that would take out another one. */
    private @Nullable ByteBuffer keptOne(int capacity) {
        for (Iterator<ByteBuffer> each = kept.iterator(); each.hasNext(); ) {
            ByteBuffer one = each.next();
            if (one.capacity() == capacity) {
                each.remove();
                return one;
            }
        }
        return null;
    }

    void giveBack(ByteBuffer buffer) {
        lentBytes -= buffer.capacity();
        if (buffer.capacity() <= LARGEST_KEPT) {
            if (kept.size() >= MOST_KEPT) {
                kept.removeLast();
            }
            kept.addFirst(buffer);
        }
    }
}

package tracksoak.bench.recorder.loop;

/**
 * Runs of dropped chunks that the writer has not reached yet, a small ring per stream. Between two gaps lies at least
 * one kept chunk, and all of them lie within one buffer, so the rings have a fixed size.
 */
final class GapQueue {

    private final long[][] first;
    private final long[][] count;
    private final int[] head;
    private final int[] size;

    GapQueue(StreamTable table) {
        int streams = table.streams();
        first = new long[streams][];
        count = new long[streams][];
        head = new int[streams];
        size = new int[streams];
        for (int i = 0; i < streams; i++) {
            int room = (int) (table.bufferBytes(i) / table.chunkBytes(i)) + 3;
            first[i] = new long[room];
            count[i] = new long[room];
        }
    }

    /** Adds a gap behind all others; joins it to the last one where they touch. */
    void add(int stream, long firstLost, long lost) {
        int room = first[stream].length;
        int newest = (head[stream] + size[stream] - 1 + room) % room;
        if (size[stream] > 0 && first[stream][newest] + count[stream][newest] == firstLost) {
            count[stream][newest] += lost;
            return;
        }
        if (size[stream] == room) {
            throw new IllegalStateException("more gaps than chunks fit in the buffer of stream " + stream);
        }
        int slot = (head[stream] + size[stream]) % room;
        first[stream][slot] = firstLost;
        count[stream][slot] = lost;
        size[stream]++;
    }

    /** The first kept chunk at or after {@code index}. */
    long skip(int stream, long index) {
        long at = index;
        while (size[stream] > 0 && first[stream][head[stream]] == at) {
            at += count[stream][head[stream]];
            head[stream] = (head[stream] + 1) % first[stream].length;
            size[stream]--;
        }
        return at;
    }
}

package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import java.nio.LongBuffer;
import tracksoak.bench.recording.WaveFormat;

/**
 * Looks through stored samples, eight bytes at a time, for runs of silence and for stretches that were there before. What it finds is
 * near, and may be chance: whoever hears of it looks again. Memory does not grow. One thread.
 */
final class RawScan {

    /** Hears what is found; places are bytes from the first sample on. */
    interface Found {

        /** Nothing but silence in at least {@value #LEAST_ZEROS} bytes. */
        void zeros(long from, long until);

        /** About what lies here lies {@code distance} bytes before as well. */
        void repeat(long from, long until, long distance);
    }

    /** Shorter runs are not told, in bytes. */
    static final int LEAST_ZEROS = 384;

    /** Nearer stretches are the signal's own periods, in bytes. */
    static final int LEAST_DISTANCE = 512;

    private static final long MIX = 0x9E37_79B9_7F4A_7C15L;
    private static final int SLOT_BITS = 14;
    private static final int SLOTS = 1 << SLOT_BITS;
    private static final int CHECK_BITS = 24;
    private static final int ENOUGH = 3;
    private static final int MOST_MISSES = 2;

    private final Found found;
    private final Anchors anchors;

    /** Of each anchor its place, in values, and {@value #CHECK_BITS} bits by which it is known again. */
    private final long[] seen = new long[SLOTS];

    private long zerosFrom = -1;
    private long zerosUntil;
    private long distance;
    private long from;
    private long until;
    private int hits;
    private int misses;

    RawScan(WaveFormat format, Found found) {
        this.found = found;
        anchors = new Anchors(format);
    }

    /**
     * Takes the next bytes, from position 0 on.
     *
     * @param count a multiple of 8, but for the last bytes of all
     * @param at where they lie
     */
    void block(ByteBuffer bytes, int count, long at) {
        int all = count / 8;
        LongBuffer values = bytes.slice(0, 8 * all).order(bytes.order()).asLongBuffer();
        for (int begin = 0; begin < all; begin += Anchors.PART) {
            part(values, begin, Math.min(Anchors.PART, all - begin), at + 8L * begin);
        }
    }

    private void part(LongBuffer values, int begin, int count, long at) {
        int found = anchors.find(values, begin, count);
        for (int k = 0; k < found; ) {
            int first = anchors.place(k);
            long value = anchors.value(first);
            if (value != 0) {
                anchor(value, at + 8L * first);
                k++;
                continue;
            }
            int next = first + 1;
            while (next < count && anchors.value(next) == 0) {
                next++;
            }
            zeros(at + 8L * first, at + 8L * next);
            k += next - first;
        }
    }

    private void zeros(long first, long next) {
        if (first != zerosUntil || zerosFrom < 0) {
            tellZeros();
            zerosFrom = first;
        }
        zerosUntil = next;
    }

    private void tellZeros() {
        if (zerosFrom >= 0 && zerosUntil - zerosFrom >= LEAST_ZEROS) {
            found.zeros(zerosFrom, zerosUntil);
        }
        zerosFrom = -1;
    }

    private void anchor(long value, long at) {
        long mixed = value * MIX;
        int slot = (int) (mixed >>> (64 - SLOT_BITS));
        long check = (mixed >>> (64 - SLOT_BITS - CHECK_BITS)) & ((1L << CHECK_BITS) - 1);
        long before = seen[slot] ^ check;
        long away = before << (64 - CHECK_BITS) == 0 ? at - 8 * (before >>> CHECK_BITS) : 0;
        seen[slot] = ((at / 8) << CHECK_BITS) | check;
        if (hits > 0 && away == distance) {
            until = at + 8;
            hits++;
            misses = 0;
        } else if (hits > 0 && ++misses < MOST_MISSES) {
            // one may have been pushed out of its slot
        } else {
            tellRepeat();
            if (away >= LEAST_DISTANCE) {
                distance = away;
                from = at;
                until = at + 8;
                hits = 1;
                misses = 0;
            }
        }
    }

    private void tellRepeat() {
        if (hits >= ENOUGH) {
            found.repeat(from, until, distance);
        }
        hits = 0;
    }

    /** Nothing more comes. */
    void end() {
        tellZeros();
        tellRepeat();
    }
}

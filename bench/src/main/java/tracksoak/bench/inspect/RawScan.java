package tracksoak.bench.inspect;

import java.nio.ByteBuffer;

/**
 * Looks through stored samples, eight bytes at a time, for runs of zeros and for stretches that were there before. What it finds is
 * near, and may be chance: whoever hears of it looks again. Memory does not grow. One thread.
 */
final class RawScan {

    /** Hears what is found; places are bytes from the first sample on. */
    interface Found {

        /** Nothing but zeros in at least {@value #LEAST_ZEROS} bytes. */
        void zeros(long from, long until);

        /** About what lies here lies {@code distance} bytes before as well. */
        void repeat(long from, long until, long distance);
    }

    /** Shorter runs of zeros are not told, in bytes. */
    static final int LEAST_ZEROS = 384;

    /** Nearer stretches are the signal's own periods, in bytes. */
    static final int LEAST_DISTANCE = 512;

    private static final long MIX = 0x9E37_79B9_7F4A_7C15L;
    private static final int ANCHOR_SHIFT = 59;
    private static final int SLOTS = 1 << 14;
    private static final int ENOUGH = 3;
    private static final int MOST_MISSES = 2;

    private final Found found;
    private final long[] values = new long[SLOTS];
    private final long[] places = new long[SLOTS];

    private long zerosFrom = -1;
    private long zerosUntil;
    private long distance;
    private long from;
    private long until;
    private int hits;
    private int misses;

    RawScan(Found found) {
        this.found = found;
    }

    /**
     * Takes the next bytes, from position 0 on.
     *
     * @param count a multiple of 8, but for the last bytes of all
     * @param at where they lie
     */
    void block(ByteBuffer bytes, int count, long at) {
        int end = count & ~7;
        int i = 0;
        while (i < end) {
            i = nextAnchor(bytes, i, end);
            if (i >= end) {
                break;
            }
            long value = bytes.getLong(i);
            if (value == 0) {
                int first = i;
                while (i < end && bytes.getLong(i) == 0) {
                    i += 8;
                }
                zeros(at + first, at + i);
            } else {
                if (mark(value) == 0) {
                    anchor(value, at + i);
                }
                i += 8;
            }
        }
    }

    /** The next place whose value is zero or marks the content. Those four at a time in which there is none are passed. */
    private static int nextAnchor(ByteBuffer bytes, int begin, int end) {
        int i = begin;
        for (; i + 32 <= end; i += 32) {
            long a = mark(bytes.getLong(i)) - 1;
            long b = mark(bytes.getLong(i + 8)) - 1;
            long c = mark(bytes.getLong(i + 16)) - 1;
            long d = mark(bytes.getLong(i + 24)) - 1;
            if ((a | b | c | d) < 0) {
                break;
            }
        }
        while (i < end && mark(bytes.getLong(i)) != 0) {
            i += 8;
        }
        return i;
    }

    private static long mark(long value) {
        return (value * MIX) >>> ANCHOR_SHIFT;
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
        int slot = (int) ((value * MIX) >>> 40) & (SLOTS - 1);
        long away = values[slot] == value ? at - places[slot] : 0;
        values[slot] = value;
        places[slot] = at;
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

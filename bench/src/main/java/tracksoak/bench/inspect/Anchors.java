package tracksoak.bench.inspect;

import java.nio.LongBuffer;
import java.util.Arrays;
import tracksoak.bench.recording.WaveFormat;

/**
 * Finds in stored samples, read as values of eight bytes, those that are silence and those that mark the content: one of some 32, the same
 * wherever the same content lies. One thread.
 *
 * <p>Where they lie is chance, so a branch for each would cost more than all else: there is none, and the loops over all values are such
 * as compilers turn into instructions for several values at a time.
 */
final class Anchors {

    /** Values looked at in one go: few enough to stay near the processor. */
    static final int PART = 1 << 11;

    private static final int QUARTER = PART / 4;
    private static final long NO_MARK = 1;

    private final long silence;
    private final long counts;
    private final long[] values = new long[PART];
    private final long[] marks = new long[PART];
    private final long[] anyOfFour = new long[QUARTER];
    private final int[] fours = new int[QUARTER + 1];
    private final int[] places = new int[PART + 1];

    Anchors(WaveFormat format) {
        silence = format.silentWord();
        counts = format.countingBits();
    }

    /**
     * Looks at the next values, and returns how many anchors there are.
     *
     * @param begin first of them
     * @param count at most {@value #PART}
     */
    int find(LongBuffer from, int begin, int count) {
        from.get(begin, values, 0, count);
        if (silence != 0 || counts != -1) {
            plain(values, silence, counts);
        }
        Arrays.fill(values, count, PART, NO_MARK);
        mark(values, marks);
        any(marks, anyOfFour);
        int some = below(anyOfFour, fours);
        int found = 0;
        for (int first = 0; first < PART; first += QUARTER) {
            found = below(marks, first, fours, some, places, found);
        }
        return found;
    }

    private static void plain(long[] values, long silence, long counts) {
        for (int i = 0; i < PART; i++) {
            values[i] = (values[i] ^ silence) & counts;
        }
    }

    private static void mark(long[] values, long[] marks) {
        for (int i = 0; i < PART; i++) {
            marks[i] = mark(values[i]);
        }
    }

    /** Below 0 for silence, and for one of some 32 other values; every byte has its part in it. */
    private static long mark(long value) {
        long mixed = value ^ value >>> 32;
        mixed += mixed >>> 17;
        mixed ^= mixed >>> 9;
        return (mixed & 31) - 1;
    }

    private static void any(long[] marks, long[] any) {
        for (int i = 0; i < QUARTER; i++) {
            any[i] = marks[i] | marks[i + QUARTER] | marks[i + 2 * QUARTER] | marks[i + 3 * QUARTER];
        }
    }

    private static int below(long[] any, int[] fours) {
        int some = 0;
        for (int i = 0; i < QUARTER; i++) {
            fours[some] = i;
            some += (int) (any[i] >>> 63);
        }
        return some;
    }

    private static int below(long[] marks, int first, int[] fours, int some, int[] places, int before) {
        int found = before;
        for (int k = 0; k < some; k++) {
            int place = first + fours[k];
            places[found] = place;
            found += (int) (marks[place] >>> 63);
        }
        return found;
    }

    /** Which of the values an anchor is; they rise. */
    int place(int anchor) {
        return places[anchor];
    }

    /** One of the values; 0 for silence. */
    long value(int place) {
        return values[place];
    }
}

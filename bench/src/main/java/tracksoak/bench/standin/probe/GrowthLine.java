package tracksoak.bench.standin.probe;

import java.util.Arrays;

/**
 * How much new audio was written by when: a staircase along a straight line. Where the line goes on lower after a stop, audio
 * is missing. The line is taken along the upper edge of the stairs, which is reached right after each chunk whatever the time of looking.
 * Memory is bounded. Confined to one thread.
 */
final class GrowthLine {

    /** Some minutes of thousands of pieces a second. */
    private static final int MOST = 1 << 20;

    private long[] us = new long[1024];
    private long[] bytes = new long[1024];
    private int size;
    private long total;
    private long longestGapUs;
    private long usualBytes;

    /** New audio came. */
    void add(long atUs, long newBytes) {
        if (size == us.length) {
            if (size == MOST) {
                size = MOST / 2;
                System.arraycopy(us, MOST / 2, us, 0, size);
                System.arraycopy(bytes, MOST / 2, bytes, 0, size);
            } else {
                us = Arrays.copyOf(us, 2 * size);
                bytes = Arrays.copyOf(bytes, 2 * size);
            }
        }
        total += newBytes;
        us[size] = atUs;
        bytes[size] = total;
        size++;
    }

    /** Forgets all. */
    void clear() {
        size = 0;
        longestGapUs = 0;
    }

    long lastUs() {
        return size == 0 ? 0 : us[size - 1];
    }

    /** The longest pause between two pieces from {@code fromUs} on, and the usual size of one. */
    void measure(long fromUs) {
        longestGapUs = 0;
        long[] pieces = new long[size];
        int count = 0;
        for (int i = 1; i < size; i++) {
            if (us[i - 1] >= fromUs) {
                longestGapUs = Math.max(longestGapUs, us[i] - us[i - 1]);
                pieces[count++] = bytes[i] - bytes[i - 1];
            }
        }
        Arrays.sort(pieces, 0, count);
        usualBytes = count == 0 ? 0 : pieces[count / 2];
    }

    long longestGapUs() {
        return longestGapUs;
    }

    long usualBytes() {
        return usualBytes;
    }

    /** Bytes per µs along the upper edge, from the first {@code windowUs} after {@code fromUs} to the last before {@code toUs}. */
    double slope(long fromUs, long toUs, long windowUs) {
        double slope = (double) (at(toUs) - at(fromUs)) / Math.max(1, toUs - fromUs);
        for (int round = 0; round < 4; round++) {
            double early = edge(fromUs, fromUs + windowUs, slope);
            double late = edge(toUs - windowUs, toUs, slope);
            slope += (late - early) / (toUs - fromUs - windowUs);
        }
        return slope;
    }

    /** How high the upper edge lies over a line of that slope through the origin. */
    double edge(long fromUs, long toUs, double slope) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < size; i++) {
            if (us[i] >= fromUs && us[i] < toUs) {
                highest = Math.max(highest, bytes[i] - slope * us[i]);
            }
        }
        return highest;
    }

    /** How far the upper edge is from one height, looked at half a window at a time: rounds of many files do not all take the same time. */
    double unsteady(long fromUs, long windowUs, double slope) {
        double highest = Double.NEGATIVE_INFINITY;
        double lowest = Double.POSITIVE_INFINITY;
        for (long us = fromUs; us + windowUs <= lastUs(); us += windowUs / 4) {
            double edge = edge(us, us + windowUs / 2, slope);
            highest = Math.max(highest, edge);
            lowest = Math.min(lowest, edge);
        }
        return Math.max(0, highest - lowest);
    }

    private long at(long when) {
        int index = Arrays.binarySearch(us, 0, size, when);
        int before = index >= 0 ? index : -index - 2;
        return before < 0 ? 0 : bytes[before];
    }
}

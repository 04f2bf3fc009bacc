package tracksoak.report.stats;

/** The corners of a line that rises over time, oldest first, in a ring: straight between two, a step where two meet. */
final class Knots {

    private long[] ns = new long[1 << 10];
    private long[] height = new long[1 << 10];
    private int first;
    private int count;

    /** Adds a corner, not before the newest. Grows, and so allocates, only beyond the most corners there ever were. */
    void append(long atNs, long high) {
        if (count == ns.length) {
            grow();
        }
        int slot = slot(count++);
        ns[slot] = atNs;
        height[slot] = high;
    }

    /** Goes straight up from the newest corner. */
    void step(long high) {
        int newest = slot(count - 1);
        if (count > 1 && ns[slot(count - 2)] == ns[newest]) {
            height[newest] = high;
        } else {
            append(ns[newest], high);
        }
    }

    /** Forgets what lies before the last corner at or before {@code atNs}. */
    void forgetBefore(long atNs) {
        while (count > 1 && ns[slot(1)] <= atNs) {
            first = slot(1);
            count--;
        }
    }

    /** When the first corner after {@code atNs} comes; the newest corner's time if there is none. */
    long after(long atNs) {
        int i = 0;
        while (i + 1 < count && ns[slot(i)] <= atNs) {
            i++;
        }
        return ns[slot(i)];
    }

    /** Height at {@code atNs}; above a step, if it is one. The search begins at the oldest corner. */
    double at(long atNs) {
        int i = 0;
        while (i + 1 < count && ns[slot(i + 1)] <= atNs) {
            i++;
        }
        int from = slot(i);
        if (i + 1 == count || atNs <= ns[from]) {
            return height[from];
        }
        int to = slot(i + 1);
        double share = (atNs - ns[from]) / (double) (ns[to] - ns[from]);
        return height[from] + (height[to] - height[from]) * share;
    }

    private int slot(int i) {
        return (first + i) & (ns.length - 1);
    }

    private void grow() {
        long[] longerNs = new long[ns.length * 2];
        long[] higher = new long[ns.length * 2];
        for (int i = 0; i < count; i++) {
            longerNs[i] = ns[slot(i)];
            higher[i] = height[slot(i)];
        }
        ns = longerNs;
        height = higher;
        first = 0;
    }
}

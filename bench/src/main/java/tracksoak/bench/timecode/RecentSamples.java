package tracksoak.bench.timecode;

/** The last samples of a track, by their number. One thread. */
final class RecentSamples {

    /** So many are kept: eight frames at 192 kHz. */
    static final int KEPT = 1 << 16;

    private final float[] ring = new float[KEPT];
    private final long first;
    private long end;

    /** @param first number of the first sample that will be added */
    RecentSamples(long first) {
        this.first = first;
        end = first;
    }

    void add(float[] samples, int from, int count) {
        int at = (int) (end % KEPT);
        int first = Math.min(count, KEPT - at);
        System.arraycopy(samples, from, ring, at, first);
        System.arraycopy(samples, from + first, ring, 0, count - first);
        end += count;
    }

    float get(long index) {
        return ring[(int) (index & KEPT - 1)];
    }

    /** The oldest that is kept. */
    long oldest() {
        return Math.max(first, end - KEPT);
    }

    /** The one after the newest. */
    long end() {
        return end;
    }
}

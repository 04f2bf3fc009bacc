package tracksoak.report.stats;

import java.util.Arrays;

/**
 * Bytes over time in buckets of 100 ms. The bytes of one call are spread evenly over the time it took, so that a write of
 * many seconds counts where it happened and not where it ended. Inside a bucket the rate is taken as even; all answers
 * are exact under that. Memory is 16 bytes per 100 ms; {@link #add} allocates only when the trace grows. One thread.
 */
public final class RateTrace {

    /** Length of one bucket in ns. */
    public static final long BUCKET_NS = 100_000_000;

    private static final long LONGEST_NS = 30L * 24 * 3600 * 1_000_000_000;

    private final long startNs;
    private double[] buckets = new double[1024];
    /** Bytes before each bucket; right for the first {@link #summed} of them, added up again from there when asked for. */
    private double[] sums = new double[1024];

    private int summed;
    private long lengthNs;

    /** An empty trace that begins at {@code startNs} on the monotonic clock. */
    public RateTrace(long startNs) {
        this.startNs = startNs;
    }

    /** Where the trace begins, on the monotonic clock in ns. */
    public long startNs() {
        return startNs;
    }

    /** Where the last call ended, on the monotonic clock in ns; the start if there was none. */
    public long endNs() {
        return startNs + lengthNs;
    }

    /**
     * Adds the bytes of one call. A call that began before the trace counts from the trace's beginning.
     *
     * @param callNs when the call began, on the monotonic clock in ns
     * @param doneNs when it came back, not before {@code callNs}
     * @param bytes bytes it moved, not negative
     * @throws IllegalArgumentException if times or bytes are out of range; a trace spans at most 30 days
     */
    public void add(long callNs, long doneNs, long bytes) {
        long from = Math.max(0, callNs - startNs);
        long to = doneNs - startNs;
        if (to < from || to > LONGEST_NS || bytes < 0) {
            throw new IllegalArgumentException("a call of " + bytes + " bytes from " + from + " ns to " + to
                    + " ns after the start; it must end after it began, within 30 days");
        }
        int first = (int) (from / BUCKET_NS);
        int last = (int) (to / BUCKET_NS);
        if (last >= buckets.length) {
            buckets = Arrays.copyOf(buckets, Math.max(last + 1, buckets.length * 2));
        }
        lengthNs = Math.max(lengthNs, to);
        summed = Math.min(summed, first);
        if (first == last) {
            buckets[first] += bytes;
            return;
        }
        double perNs = bytes / (double) (to - from);
        buckets[first] += perNs * ((first + 1) * BUCKET_NS - from);
        for (int i = first + 1; i < last; i++) {
            buckets[i] += perNs * BUCKET_NS;
        }
        buckets[last] += perNs * (to - last * BUCKET_NS);
    }

    /** Bytes moved between two moments on the monotonic clock in ns; nothing happens outside the trace. */
    public double bytesBetween(long fromNs, long toNs) {
        sumUp();
        return toNs <= fromNs ? 0 : at(toNs - startNs) - at(fromNs - startNs);
    }

    /**
     * Mean rate of each whole round since the start, in B/s; a last round that is not whole is left out.
     *
     * @param roundNs length of one round in ns, above 0
     */
    public double[] rounds(long roundNs) {
        if (roundNs <= 0) {
            throw new IllegalArgumentException("a round of " + roundNs + " ns; it must be above 0 ns");
        }
        sumUp();
        double[] rates = new double[Math.toIntExact(lengthNs / roundNs)];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = within(i * roundNs, roundNs) * 1e9 / roundNs;
        }
        return rates;
    }

    private double within(long from, long windowNs) {
        return at(from + windowNs) - at(from);
    }

    /** Bytes up to {@code ns} after the start. The last bucket is only filled up to the end of the trace. */
    private double at(long ns) {
        long inside = Math.max(0, Math.min(ns, summed * BUCKET_NS));
        int whole = (int) (inside / BUCKET_NS);
        double share = (inside - whole * BUCKET_NS) / (double) BUCKET_NS;
        return share == 0 ? sums[whole] : sums[whole] + (sums[whole + 1] - sums[whole]) * share;
    }

    private void sumUp() {
        int last = (int) (lengthNs / BUCKET_NS) + 1;
        if (last >= sums.length) {
            sums = Arrays.copyOf(sums, Math.max(last + 1, buckets.length + 1));
        }
        for (; summed < last; summed++) {
            sums[summed + 1] = sums[summed] + buckets[summed];
        }
    }
}

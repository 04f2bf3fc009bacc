package tracksoak.report.stats;

import java.util.Arrays;
import java.util.Optional;

/**
 * The cliff: the moment at which the write rate fell for good. Found over mean rates of 1 s: the split into "before" and
 * "after" that makes the sum of distances to the two medians least. Medians, so that a stall or a burst does not move it.
 * The split counts as a cliff only if all of these hold:
 *
 * <ul>
 *   <li>at least {@value #LEAST_BEFORE} s before and {@value #LEAST_AFTER} s after it were seen;
 *   <li>the median after is at most {@value #MOST_LEFT} of the median before;
 *   <li>at least {@value #LEAST_APART} of the seconds before lie above the middle of the two medians, and as many of the
 *       seconds after below it, up to the end of the trace: stalls that come and go are none;
 *   <li>within {@value #NEAR} s either side the medians differ by at least half of the whole drop: a slow decline is none;
 *   <li>such a parting is unlikely by chance: one-sided exact test of the 2 × 2 table (Fisher 1922), p × number of splits
 *       ≤ {@value #MOST_CHANCE}.
 * </ul>
 *
 * @param atS when, in s from the start of the trace
 * @param bytes bytes written by then
 * @param rateBefore mean rate before, in B/s
 * @param rateAfter mean rate after, in B/s
 */
public record ChangePoint(double atS, long bytes, double rateBefore, double rateAfter) {

    static final int LEAST_BEFORE = 3;
    static final int LEAST_AFTER = 10;
    static final double MOST_LEFT = 0.8;
    static final double LEAST_APART = 0.75;
    static final int NEAR = 10;
    static final double MOST_CHANCE = 0.05;

    private static final long SECOND_NS = 1_000_000_000;

    /** Looks for the cliff in a trace; empty if the rate did not fall for good. */
    public static Optional<ChangePoint> find(RateTrace trace) {
        double[] rates = trace.rounds(SECOND_NS);
        double split = split(rates);
        if (Double.isNaN(split)) {
            return Optional.empty();
        }
        long at = trace.startNs() + Math.round(split * SECOND_NS);
        double before = trace.bytesBetween(trace.startNs(), at);
        double after = trace.bytesBetween(at, trace.endNs());
        double afterS = (trace.endNs() - at) / (double) SECOND_NS;
        return Optional.of(new ChangePoint(split, Math.round(before), before / split, after / afterS));
    }

    /**
     * Where the last cliff lies, one behind another, in mean rates of 1 s each: the first whole second behind it; 0 if there
     * is none behind which so many seconds were seen.
     */
    public static int behindTheLast(double[] rates, int leastAfter) {
        int from = 0;
        double split = split(rates);
        while (!Double.isNaN(split) && rates.length - from - Math.ceil(split) >= leastAfter) {
            from += (int) Math.ceil(split);
            split = split(Arrays.copyOfRange(rates, from, rates.length));
        }
        return from;
    }

    /** Moment of the cliff in s from the start of mean rates of 1 s each, NaN if there is none. */
    static double split(double[] rates) {
        int n = rates.length;
        if (n < LEAST_BEFORE + LEAST_AFTER) {
            return Double.NaN;
        }
        double[] left = RunningMedian.costs(rates);
        double[] right = RunningMedian.costs(reversed(rates));
        int best = LEAST_BEFORE;
        for (int k = LEAST_BEFORE; k <= n - LEAST_AFTER; k++) {
            if (left[k] + right[n - k] < left[best] + right[n - best]) {
                best = k;
            }
        }
        double before = RunningMedian.of(rates, 0, best);
        double after = RunningMedian.of(rates, best, n);
        return isCliff(rates, best, before, after) ? edge(rates, best, before, after) : Double.NaN;
    }

    private static boolean isCliff(double[] rates, int k, double before, double after) {
        int n = rates.length;
        if (after > MOST_LEFT * before) {
            return false;
        }
        double nearBefore = RunningMedian.of(rates, Math.max(0, k - NEAR), k);
        double nearAfter = RunningMedian.of(rates, k, Math.min(n, k + NEAR));
        if (nearBefore - nearAfter < (before - after) / 2) {
            return false;
        }
        double middle = (before + after) / 2;
        int above = 0;
        int aboveLate = 0;
        for (int i = 0; i < n; i++) {
            if (rates[i] > middle) {
                above++;
                aboveLate += i >= k ? 1 : 0;
            }
        }
        int aboveEarly = above - aboveLate;
        return aboveEarly >= LEAST_APART * k
                && n - k - aboveLate >= LEAST_APART * (n - k)
                && chance(n, above, k, aboveEarly) * (n - 1) <= MOST_CHANCE;
    }

    /** Probability that {@code early} or more of {@code above} marked seconds fall among the first k of n. */
    private static double chance(int n, int above, int k, int early) {
        double[] logFactorial = new double[n + 1];
        for (int i = 1; i <= n; i++) {
            logFactorial[i] = logFactorial[i - 1] + Math.log(i);
        }
        double all = choose(logFactorial, n, k);
        double sum = 0;
        for (int i = early; i <= Math.min(above, k); i++) {
            if (k - i <= n - above) {
                sum += Math.exp(choose(logFactorial, above, i) + choose(logFactorial, n - above, k - i) - all);
            }
        }
        return sum;
    }

    private static double choose(double[] logFactorial, int n, int k) {
        return logFactorial[n] - logFactorial[k] - logFactorial[n - k];
    }

    /** The second in which the rate fell is part fast, part slow: its own mean tells how much of it was fast. */
    private static double edge(double[] rates, int k, double before, double after) {
        return k - 1 + fastShare(rates[k - 1], before, after) + fastShare(rates[k], before, after);
    }

    private static double fastShare(double rate, double before, double after) {
        return Math.max(0, Math.min(1, (rate - after) / (before - after)));
    }

    private static double[] reversed(double[] values) {
        double[] reversed = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            reversed[i] = values[values.length - 1 - i];
        }
        return reversed;
    }
}

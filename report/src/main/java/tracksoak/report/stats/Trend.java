package tracksoak.report.stats;

import java.util.Arrays;

/**
 * Whether a figure rises or falls over time, and how fast. Whether: the chance of such an order of values if the time
 * meant nothing (Mann 1945, Kendall 1938; exact up to 50 values, see {@link Concordance}). How fast: the median of the
 * slopes of all pairs (Theil 1950, Sen 1968) and an interval from the same chances. Neither asks for a normal
 * distribution, and one wild value does not carry them away. Any thread.
 *
 * @param n number of values
 * @param score pairs that rise − pairs that fall
 * @param fallsByChance chance of falling so clearly or more if the time meant nothing, 0…1
 * @param risesByChance the same for rising
 * @param slope median slope, per unit of time
 * @param leastSlope lower end of the interval, −∞ with too few values
 * @param mostSlope upper end of the interval, +∞ with too few values
 * @param atStart value at time 0 of the line with that slope through the medians
 */
public record Trend(
        int n,
        long score,
        double fallsByChance,
        double risesByChance,
        double slope,
        double leastSlope,
        double mostSlope,
        double atStart) {

    /** The interval of the slope leaves out the truth at most this often. */
    public static final double OUTSIDE = 0.05;

    /** Most values looked at; all pairs of them are compared. */
    public static final int MOST = 2_000;

    /**
     * Looks for a trend.
     *
     * @param times strictly rising, at least two
     * @param values one per time, finite
     * @throws IllegalArgumentException if they are not
     */
    public static Trend of(double[] times, double[] values) {
        require(times, values);
        int n = times.length;
        double[] slopes = new double[n * (n - 1) / 2];
        int k = 0;
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                slopes[k++] = (values[j] - values[i]) / (times[j] - times[i]);
            }
        }
        Arrays.sort(slopes);
        double slope = RunningMedian.of(slopes, 0, slopes.length);
        Concordance order = Concordance.of(values);
        int cut = Concordance.cut(n, OUTSIDE);
        return new Trend(
                n,
                order.score(),
                order.atMost(),
                order.atLeast(),
                slope,
                cut == 0 ? Double.NEGATIVE_INFINITY : slopes[cut - 1],
                cut == 0 ? Double.POSITIVE_INFINITY : slopes[slopes.length - cut],
                RunningMedian.of(values, 0, n) - slope * RunningMedian.of(times, 0, n));
    }

    /** The line's value at a time. */
    public double at(double time) {
        return atStart + slope * time;
    }

    /**
     * Chances made fit to be compared with one level although several questions were asked (Holm 1979): the level then
     * bounds the chance that any of those that mean nothing is taken for something.
     *
     * @param chances one per question, 0…1
     * @return in the same order, each at least as large as it was
     */
    public static double[] together(double[] chances) {
        Integer[] order = new Integer[chances.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (a, b) -> Double.compare(chances[a], chances[b]));
        double[] adjusted = new double[chances.length];
        double least = 0;
        for (int rank = 0; rank < order.length; rank++) {
            least = Math.max(least, Math.min(1, chances[order[rank]] * (order.length - rank)));
            adjusted[order[rank]] = least;
        }
        return adjusted;
    }

    private static void require(double[] times, double[] values) {
        if (times.length != values.length || times.length < 2 || times.length > MOST) {
            throw new IllegalArgumentException(times.length + " times and " + values.length
                    + " values; a trend needs as many of both, 2 to " + MOST);
        }
        for (int i = 0; i < times.length; i++) {
            if (!Double.isFinite(times[i]) || !Double.isFinite(values[i])) {
                throw new IllegalArgumentException(
                        "value " + i + " is " + values[i] + " at " + times[i] + "; both must be finite");
            }
            if (i > 0 && times[i] <= times[i - 1]) {
                throw new IllegalArgumentException(
                        "time " + i + " is " + times[i] + " after " + times[i - 1] + "; times rise");
            }
        }
    }
}

package tracksoak.report.stats;

import java.util.Arrays;

/**
 * How far values lie apart.
 *
 * @param n how many
 * @param least smallest
 * @param median the middle one; the mean of the middle two for an even number
 * @param most largest
 */
public record Spread(int n, double least, double median, double most) {

    /**
     * Of at least one value.
     *
     * @throws IllegalArgumentException if there is none
     */
    public static Spread of(double... values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("no values have no spread; give at least one");
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return new Spread(
                sorted.length, sorted[0], RunningMedian.of(sorted, 0, sorted.length), sorted[sorted.length - 1]);
    }
}

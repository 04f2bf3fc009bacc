package tracksoak.report.stats;

import java.util.Arrays;

/**
 * Kendall's score S of values in order of time: pairs that rise less pairs that fall (Mann 1945; Kendall 1938). Up to
 * {@value #MOST_EXACT} values its chances are exact, also among equal values: all orders of the very values seen are
 * counted, which are the Gaussian multinomial coefficients. Above, the normal approximation with the variance for ties and
 * the continuity correction (Kendall 1975, §4.8, from memory).
 *
 * @param score S, pairs that rise − pairs that fall
 * @param atMost chance of a score so low or lower if the order means nothing
 * @param atLeast chance of a score so high or higher if the order means nothing
 */
record Concordance(long score, double atMost, double atLeast) {

    static final int MOST_EXACT = 50;

    /** Of values in order of time. */
    static Concordance of(double[] given) {
        double[] values = Arrays.stream(given).map(value -> value + 0.0).toArray();
        int n = values.length;
        long score = 0;
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                score += Integer.signum(Double.compare(values[j], values[i]));
            }
        }
        int[] ties = ties(values);
        if (n > MOST_EXACT) {
            return approximate(n, score, ties);
        }
        double[] orders = orders(ties);
        int unequal = orders.length - 1;
        int falls = Math.toIntExact((unequal - score) / 2);
        double all = Arrays.stream(orders).sum();
        double few = 0;
        for (int i = 0; i <= falls; i++) {
            few += orders[i];
        }
        return new Concordance(score, (all - few + orders[falls]) / all, few / all);
    }

    /**
     * How many of the slopes between pairs to cut off at each end of their sorted list for an interval that holds the true
     * slope with at least 1 − {@code outside} (Hollander and Wolfe 1973, §9.3, from memory): the largest k with a chance of
     * at most {@code outside} ÷ 2 of fewer than k pairs in the wrong order; 0 if there are too few values for any interval.
     */
    static int cut(int n, double outside) {
        if (n > MOST_EXACT) {
            double z = 1.959963984540054;
            double pairs = n * (n - 1) / 2.0;
            return (int) Math.max(0, Math.floor((pairs - z * Math.sqrt(variance(n, new int[0]))) / 2));
        }
        int[] single = new int[n];
        Arrays.fill(single, 1);
        double[] orders = orders(single);
        double all = Arrays.stream(orders).sum();
        double sum = 0;
        int cut = 0;
        while (cut < orders.length && (sum + orders[cut]) / all <= outside / 2) {
            sum += orders[cut];
            cut++;
        }
        return cut;
    }

    private static Concordance approximate(int n, long score, int[] ties) {
        double deviation = Math.sqrt(variance(n, ties));
        return new Concordance(score, normalAtMost((score + 1) / deviation), normalAtMost(-(score - 1) / deviation));
    }

    private static double variance(int n, int[] ties) {
        double sum = n * (n - 1.0) * (2.0 * n + 5);
        for (int m : ties) {
            sum -= m * (m - 1.0) * (2.0 * m + 5);
        }
        return sum / 18;
    }

    /** Sizes of the groups of equal values. */
    private static int[] ties(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int[] sizes = new int[sorted.length];
        int groups = 0;
        for (int i = 0; i < sorted.length; i++) {
            if (i > 0 && Double.compare(sorted[i], sorted[i - 1]) != 0) {
                groups++;
            }
            sizes[groups]++;
        }
        return Arrays.copyOf(sizes, sorted.length == 0 ? 0 : groups + 1);
    }

    /** Entry k: orders of the values in which k pairs fall. */
    private static double[] orders(int[] ties) {
        double[] product = {1};
        int before = 0;
        for (int size : ties) {
            before += size;
            product = times(product, gaussian(before, size));
        }
        return product;
    }

    /** Gaussian binomial coefficient: entry k, ways to merge {@code size} equal values among others with k inversions. */
    private static double[] gaussian(int all, int size) {
        double[][] row = new double[size + 1][];
        row[0] = new double[] {1};
        for (int n = 1; n <= all; n++) {
            for (int m = Math.min(n, size); m >= 1; m--) {
                double[] next = new double[m * (n - m) + 1];
                double[] without = row[m];
                if (without != null && n > m) {
                    System.arraycopy(without, 0, next, 0, without.length);
                }
                double[] with = row[m - 1];
                for (int k = 0; k < with.length; k++) {
                    next[k + n - m] += with[k];
                }
                row[m] = next;
            }
        }
        return row[size];
    }

    private static double[] times(double[] a, double[] b) {
        double[] product = new double[a.length + b.length - 1];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                product[i + j] += a[i] * b[j];
            }
        }
        return product;
    }

    /** Standard normal distribution (Abramowitz and Stegun 1964, 7.1.26, error below 2e-7, from memory). */
    static double normalAtMost(double z) {
        double x = Math.abs(z) / Math.sqrt(2);
        double t = 1 / (1 + 0.3275911 * x);
        double tail = t
                * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
                * Math.exp(-x * x)
                / 2;
        return z > 0 ? 1 - tail : tail;
    }
}

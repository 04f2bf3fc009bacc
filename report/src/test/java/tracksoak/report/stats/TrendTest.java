package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TrendTest {

    private static final double[] DAYS = {0, 31, 62, 120, 151, 200, 274};
    private static final double[] FLOORS = {41.0, 40.2, 37.5, 36.0, 33.1, 31.5, 27.0};

    /**
     * Lightness and quality of canned tuna (Hollander and Wolfe 1973, p. 185 f., as in the example of R's
     * {@code cor.test}, from memory): tau 0.4444, two-sided exact p 0.1194. SciPy 1.17.1 gives 0.119439 and one-sided
     * 0.0597195, and a median slope of 0.129347826 with intercept −2.246521739.
     */
    @Test
    void agreesWithAPublishedExample() {
        double[] lightness = {41.9, 44.1, 44.4, 44.7, 45.2, 45.9, 50.7, 53.3, 60.1};
        double[] quality = {2.5, 4.0, 2.6, 3.6, 2.8, 3.1, 5.2, 5.0, 3.8};
        Trend trend = Trend.of(lightness, quality);
        assertThat(trend.score()).isEqualTo(16);
        assertThat(trend.score() / 36.0).isCloseTo(0.4444, within(5e-5));
        assertThat(2 * trend.risesByChance()).isCloseTo(0.1194, within(5e-5));
        assertThat(trend.risesByChance()).isCloseTo(0.05971946649029982, within(1e-12));
        assertThat(trend.slope()).isCloseTo(0.12934782608695655, within(1e-12));
        assertThat(trend.atStart()).isCloseTo(-2.246521739130437, within(1e-12));
    }

    /** SciPy 1.17.1, {@code kendalltau(…, method='exact', alternative='less')} and {@code theilslopes}. */
    @Test
    void agreesWithAReferenceToolOnAFallingFloor() {
        Trend trend = Trend.of(DAYS, FLOORS);
        assertThat(trend.score()).isEqualTo(-21);
        assertThat(trend.fallsByChance()).isCloseTo(0.0001984126984126984, within(1e-15));
        assertThat(trend.risesByChance()).isCloseTo(1, within(1e-12));
        assertThat(trend.slope()).isCloseTo(-0.051094890510948905, within(1e-15));
        assertThat(trend.atStart()).isCloseTo(42.13138686131387, within(1e-12));
        // of 21 slopes the 4th and the 18th: fewer than 4 falls among 7 values have a chance of 0.0151, fewer than 5 of
        // 0.0345 (counted apart in Python)
        assertThat(trend.leastSlope()).isCloseTo(-0.05916666666666668, within(1e-12));
        assertThat(trend.mostSlope()).isCloseTo(-0.041666666666666664, within(1e-12));
    }

    /** Counted apart in Python over all different orders of the very values ({@code itertools.permutations}). */
    @Test
    void countsOrdersOfEqualValuesExactly() {
        Concordance falling = Concordance.of(new double[] {5, 5, 4, 3, 3, 3, 1});
        assertThat(falling.score()).isEqualTo(-17);
        assertThat(falling.atMost()).isCloseTo(0.002380952380952381, within(1e-14));
        Concordance rising = Concordance.of(new double[] {2, 1, 2, 3, 3});
        assertThat(rising.score()).isEqualTo(6);
        assertThat(rising.atMost()).isCloseTo(0.9666666666666667, within(1e-14));
        assertThat(rising.atLeast()).isCloseTo(0.1, within(1e-14));
        Concordance even = Concordance.of(new double[] {1, 1, 1, 1});
        assertThat(even.atMost()).isEqualTo(1);
        assertThat(even.atLeast()).isEqualTo(1);
    }

    /** Brute force: every order of n different values, sorted by how many pairs fall. */
    @Test
    void chancesAddUpOverAllOrders() {
        for (int n = 2; n <= 7; n++) {
            int orders = IntStream.rangeClosed(1, n).reduce(1, (a, b) -> a * b);
            double[] values = IntStream.range(0, n).mapToDouble(i -> i).toArray();
            long asExtreme = 0;
            double[] seen = values.clone();
            seen[n - 1] = 0.5;
            Concordance one = Concordance.of(seen);
            for (int code = 0; code < orders; code++) {
                asExtreme += Concordance.of(order(values, code)).score() >= one.score() ? 1 : 0;
            }
            assertThat(one.atLeast()).as("n = %d", n).isCloseTo(asExtreme / (double) orders, within(1e-12));
        }
    }

    private static double[] order(double[] values, int code) {
        double[] order = values.clone();
        int left = code;
        for (int i = order.length; i > 1; i--) {
            int j = left % i;
            left /= i;
            double kept = order[j];
            order[j] = order[i - 1];
            order[i - 1] = kept;
        }
        return order;
    }

    /** SciPy 1.17.1, asymptotic and without a continuity correction: 1.2251e-7 two-sided; ours is with one, so a bit more. */
    @Test
    void approximatesLongHistories() {
        double[] values = DoubleStream.of(
                        38.4, 37.3, 39.3, 40.5, 41.9, 39.7, 38.3, 37.7, 40.7, 42.4, 39.5, 36.4, 36.9, 41.9, 39.0, 35.0,
                        38.2, 36.0, 36.9, 37.1, 36.6, 39.0, 37.7, 36.5, 38.4, 39.2, 34.1, 36.8, 35.2, 36.8, 34.4, 36.9,
                        36.7, 36.1, 34.5, 35.7, 34.2, 33.6, 36.6, 33.9, 38.3, 37.3, 31.8, 36.2, 33.4, 35.6, 35.5, 31.3,
                        34.7, 34.6, 36.9, 32.5, 36.3, 32.5, 33.9, 32.8, 37.3, 35.4, 39.1, 35.4)
                .toArray();
        double[] times = IntStream.range(0, 60).mapToDouble(i -> 10 * i).toArray();
        Trend trend = Trend.of(times, values);
        assertThat(trend.score()).isEqualTo(-829);
        assertThat(2 * trend.fallsByChance()).isBetween(1.2e-7, 2.0e-7);
        assertThat(trend.slope()).isCloseTo(-0.009220647773279335, within(1e-12));
        assertThat(trend.leastSlope()).isCloseTo(-0.0125, within(2e-4));
        assertThat(trend.mostSlope()).isCloseTo(-0.006216216216216208, within(2e-4));
    }

    /** The exact chances and the approximation meet where one gives way to the other. */
    @Test
    void exactAndApproximateChancesMeet() {
        SplittableRandom random = new SplittableRandom(11);
        double[] values = random.doubles(51).toArray();
        Concordance exact = Concordance.of(Arrays.copyOf(values, 50));
        Concordance near = Concordance.of(values);
        double step = Math.abs(near.score() - exact.score()) / Math.sqrt(50 * 49 * 105 / 18.0);
        assertThat(Math.abs(near.atMost() - exact.atMost())).isLessThan(0.4 * step + 0.005);
    }

    /** Fewer than five values can have no interval of 95 %: all orders of four are 24, and 1 ÷ 24 is above 0.025. */
    @Test
    void tooFewValuesHaveNoInterval() {
        Trend four = Trend.of(new double[] {1, 2, 3, 4}, new double[] {4, 3, 2, 1});
        assertThat(four.leastSlope()).isEqualTo(Double.NEGATIVE_INFINITY);
        assertThat(four.mostSlope()).isEqualTo(Double.POSITIVE_INFINITY);
        assertThat(four.fallsByChance()).isCloseTo(1 / 24.0, within(1e-15));
        Trend five = Trend.of(new double[] {1, 2, 3, 4, 5}, new double[] {9, 7, 6, 2, 1});
        assertThat(five.leastSlope()).isEqualTo(-4);
        assertThat(five.mostSlope()).isEqualTo(-1);
    }

    /** The interval holds the true slope in at least 95 of 100 cases; seed 41, noise from a wide-tailed distribution. */
    @Test
    void theIntervalHoldsTheTruthAsOftenAsItSays() {
        SplittableRandom random = new SplittableRandom(41);
        int held = 0;
        int trials = 2_000;
        for (int trial = 0; trial < trials; trial++) {
            double[] values = new double[DAYS.length];
            for (int i = 0; i < values.length; i++) {
                double noise = Math.tan(Math.PI * (random.nextDouble() - 0.5) * 0.98);
                values[i] = 40 - 0.05 * DAYS[i] + noise;
            }
            Trend trend = Trend.of(DAYS, values);
            held += trend.leastSlope() <= -0.05 && -0.05 <= trend.mostSlope() ? 1 : 0;
        }
        // three standard deviations of a binomial count below 95 %
        assertThat(held / (double) trials).isGreaterThan(0.95 - 3 * Math.sqrt(0.95 * 0.05 / trials));
    }

    /** Holm 1979: 0.01, 0.02, 0.03, 0.04 become 0.04, 0.06, 0.06, 0.06 (by hand; R's p.adjust gives the same). */
    @Test
    void severalQuestionsAreHeldToOneLevel() {
        assertThat(Trend.together(new double[] {0.03, 0.01, 0.04, 0.02}))
                .containsExactly(new double[] {0.06, 0.04, 0.06, 0.06}, within(1e-12));
        assertThat(Trend.together(new double[] {0.9})).containsExactly(0.9);
        assertThat(Trend.together(new double[] {0.6, 0.7})).containsExactly(1, 1);
    }

    @Test
    void refusesWhatIsNoHistory() {
        assertThatIllegalArgumentException().isThrownBy(() -> Trend.of(new double[] {1}, new double[] {1}));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Trend.of(new double[] {1, 1}, new double[] {1, 2}))
                .withMessageContaining("times rise");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Trend.of(new double[] {1, 2}, new double[] {1, Double.NaN}))
                .withMessageContaining("finite");
    }
}

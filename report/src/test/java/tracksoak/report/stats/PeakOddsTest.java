package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PeakOddsTest {

    private static final double NO_CAP = Double.POSITIVE_INFINITY;
    private static final int CLAIMS = 2_167;
    private static final long SEED = 606_060L;

    /** Coles 2001, §4.4: daily rain above 30 mm, 152 of 17,531 days; 100-year level 106.3 mm, from a law given with three digits. */
    @Test
    void theHundredYearRainOfThePublishedLaw() {
        double once = 1 / (36_500 * 152.0 / 17_531);
        assertThat(30 + new TailLaw(0.184, 7.44).excess(once)).isCloseTo(106.3, within(0.15));
    }

    /** McNeil 1997: Danish fire claims above 10 million kroner; ξ and β as published. */
    @Test
    void theFireClaims() throws IOException {
        TailFit fit = TailFit.of(claims(), NO_CAP);
        assertThat(fit.count()).isEqualTo(109);
        assertThat(fit.law().shape()).isCloseTo(0.497, within(5e-4));
        assertThat(fit.law().scale()).isCloseTo(6.975, within(1e-3));
        assertThat(fit.logLikelihood()).as("by SciPy 1.17.1").isCloseTo(-374.892992, within(1e-5));
        assertThat(10 + fit.law().excess(0.01 * CLAIMS / 109)).isCloseTo(27.29, within(0.02));
        assertThat(10 + fit.law().excess(0.001 * CLAIMS / 109)).isCloseTo(94.34, within(0.05));
    }

    /** Expected counts in 3,650 s of 2,167 s watched; constrained optimisation with SciPy 1.17.1, same drop of the likelihood. */
    @ParameterizedTest
    @CsvSource({"100, 3.261394, .904520, 8.909828", "500, .136311, .0039263, 1.232874"})
    void theIntervalAgreesWithAConstrainedSearch(double value, double best, double least, double most)
            throws IOException {
        PeakOdds.Range range = new PeakOdds(10, TailFit.of(claims(), NO_CAP), CLAIMS).expected(value, 3_650);
        assertThat(range.best()).isCloseTo(best, within(best * 1e-3));
        assertThat(range.least()).isCloseTo(least, within(least * 0.02));
        assertThat(range.most()).isCloseTo(most, within(most * 0.02));
    }

    @Test
    void theLevelPassedOnceInATimeIsPassedOnceInIt() throws IOException {
        PeakOdds odds = new PeakOdds(10, TailFit.of(claims(), NO_CAP), CLAIMS);
        PeakOdds.Range level = odds.level(2_000);
        assertThat(odds.expected(level.best(), 2_000).best()).isCloseTo(1, within(1e-9));
        assertThat(odds.expected(level.least(), 2_000).most()).isGreaterThan(1);
        assertThat(odds.expected(level.most(), 2_000).most()).isCloseTo(1, within(0.02));
        assertThat(odds.chance(level.best(), 2_000).best()).isCloseTo(1 - Math.exp(-1), within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({"-.4, 12", "-.1, 3", "0, 5", "1e-10, 5", ".3, 40", "1.5, 2"})
    void shareAndExcessAreEachOthersInverse(double shape, double scale) {
        TailLaw law = new TailLaw(shape, scale);
        for (double share : new double[] {0.999, 0.5, 0.01, 1e-6}) {
            assertThat(law.beyond(law.excess(share))).isCloseTo(share, within(share * 1e-6));
        }
        assertThat(law.beyond(0)).isEqualTo(1);
        assertThat(new TailLaw(-0.5, 10).beyond(20)).as("there is a largest").isZero();
    }

    @Test
    void aCappedExcessCountsAsAtLeastTheCap() {
        double[] whole = sample(new TailLaw(0.2, 100), 400, new SplittableRandom(SEED));
        double cap = 250;
        long beyond = Arrays.stream(whole).filter(x -> x >= cap).count();
        assertThat(beyond).isBetween(20L, 100L);
        double[] cut = Arrays.stream(whole).map(x -> Math.min(x, cap)).toArray();
        TailFit fit = TailFit.of(cut, cap);
        assertThat(fit.logLikelihood())
                .isCloseTo(direct(cut, cap, fit.law().shape(), fit.law().scale()), within(1e-6));
        for (double shape = -0.6; shape < 1.6; shape += 0.05) {
            for (double scale = 30; scale < 300; scale += 5) {
                assertThat(direct(cut, cap, shape, scale)).isLessThanOrEqualTo(fit.logLikelihood() + 1e-6);
            }
        }
    }

    /** By the definition of a likelihood: densities, and chances of being beyond the cap. */
    private static double direct(double[] excesses, double cap, double shape, double scale) {
        TailLaw law = new TailLaw(shape, scale);
        double sum = 0;
        for (double x : excesses) {
            double step = 1e-5;
            sum += Math.log(x >= cap ? law.beyond(cap) : (law.beyond(x - step) - law.beyond(x + step)) / (2 * step));
        }
        return sum;
    }

    /**
     * Known laws, seeded samples, Poisson numbers of peaks. The 95 % interval holds the truth as often as it says, neither more
     * nor less than chance allows (binomial, 1 in 1,000 on either side); without the correction for few peaks it holds it too seldom.
     */
    @Test
    void theIntervalHoldsTheTruthAsOftenAsItSays() {
        String[] laws = {"40, -.3, .5", "40, 0, .1", "40, .25, .02", "60, .25, .2", "80, .6, 1"};
        int samples = 0;
        int held = 0;
        int heldWithout = 0;
        for (int row = 0; row < laws.length; row++) {
            double[] law = Arrays.stream(laws[row].split(","))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
            SplittableRandom random = new SplittableRandom(SEED + row);
            TailLaw truth = new TailLaw(law[1], 100);
            double value = truth.excess(law[2] / (10 * law[0]));
            for (int i = 0; i < 160; i++) {
                int seen = Math.max(20, poisson(law[0], random));
                TailFit fit = TailFit.of(sample(truth, seen, random), NO_CAP);
                held += holds(new PeakOdds(0, fit, 600), value, law[2]) ? 1 : 0;
                heldWithout += holds(new PeakOdds(0, fit, 600, 0), value, law[2]) ? 1 : 0;
                samples++;
            }
        }
        BinomialDistribution count = BinomialDistribution.of(samples, 0.95);
        String figures = "held by " + held + ", without the correction by " + heldWithout + " of " + samples
                + " intervals, seeds from " + SEED;
        System.out.println(figures);
        assertThat(held)
                .as(figures)
                .isBetween(count.inverseCumulativeProbability(0.001), count.inverseCumulativeProbability(0.999));
        assertThat(heldWithout).as(figures).isLessThan(count.inverseCumulativeProbability(0.001));
    }

    private static boolean holds(PeakOdds odds, double value, double expected) {
        PeakOdds.Range range = odds.expected(value, 6_000);
        assertThat(range.least()).isLessThanOrEqualTo(range.best());
        assertThat(range.most()).isGreaterThanOrEqualTo(range.best());
        return range.least() <= expected && expected <= range.most();
    }

    @ParameterizedTest
    @CsvSource({"1e-8", ".001", ".1", "1", "4", "30"})
    void theLikelihoodOfARateFallsAsAsked(double fall) {
        for (boolean above : new boolean[] {false, true}) {
            double w = PeakOdds.ratio(fall, above);
            assertThat(w - 1 - Math.log(w)).isCloseTo(fall, within(fall * 1e-6 + 1e-14));
            assertThat(w > 1).isEqualTo(above);
        }
        assertThat(PeakOdds.ratio(0, true)).isEqualTo(1);
    }

    @Test
    void refusesWhatHasNoTail() {
        assertThatThrownBy(() -> TailFit.of(new double[] {3}, NO_CAP)).hasMessageContaining("two or more");
        assertThatThrownBy(() -> TailFit.of(new double[] {3, 0}, NO_CAP)).hasMessageContaining("above 0");
        assertThatThrownBy(() -> TailFit.of(new double[] {30, 40}, 10)).hasMessageContaining("below the cap");
        assertThatThrownBy(() -> new TailLaw(0.1, 0)).hasMessageContaining("scale is above 0");
    }

    static double[] sample(TailLaw law, int count, SplittableRandom random) {
        return random.doubles(count).map(share -> law.excess(1 - share)).toArray();
    }

    private static int poisson(double mean, SplittableRandom random) {
        int count = 0;
        for (double sum = -Math.log(1 - random.nextDouble()); sum < mean; count++) {
            sum -= Math.log(1 - random.nextDouble());
        }
        return count;
    }

    private static double[] claims() throws IOException {
        return Files.readAllLines(Path.of("src/test/resources/stats/fire-claims.txt")).stream()
                .filter(line -> !line.startsWith("#"))
                .mapToDouble(line -> Double.parseDouble(line) - 10)
                .toArray();
    }
}

package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;
import tracksoak.report.stats.Peaks.Peak;

class PeaksTest {

    private static final double NO_CAP = Double.POSITIVE_INFINITY;
    private static final long SEED = 515_151L;

    @Test
    void peaksThatBelongTogetherAreOne() {
        int[] series = {1, 7, 2, 9, 1, 1, 8, 1, 1, 1, 6, 5};
        assertThat(Peaks.above(series, 4, 1))
                .containsExactly(new Peak(1, 7), new Peak(3, 9), new Peak(6, 8), new Peak(10, 6));
        assertThat(Peaks.above(series, 4, 2)).containsExactly(new Peak(3, 9), new Peak(6, 8), new Peak(10, 6));
        assertThat(Peaks.above(series, 4, 3)).containsExactly(new Peak(3, 9), new Peak(10, 6));
        assertThat(Peaks.above(series, 4, 4)).containsExactly(new Peak(3, 9));
        assertThat(Peaks.above(series, 9, 2)).isEmpty();
        assertThatThrownBy(() -> Peaks.above(series, 4, 0)).hasMessageContaining("gap is 0");
    }

    @Test
    void samplesOfALawFollowItAndAMixtureDoesNot() {
        SplittableRandom random = new SplittableRandom(SEED);
        int refused = 0;
        for (int i = 0; i < 60; i++) {
            double[] sample = PeakOddsTest.sample(new TailLaw(0.2, 50), 60, random);
            refused += LawTest.chance(sample, NO_CAP, x -> x, i) <= 0.05 ? 1 : 0;
        }
        // 5 % of 60 are 3; 9 and more have a chance of 0.4 %
        assertThat(refused).as("seed %d", SEED).isLessThan(9);
        double[] twoKinds = new double[80];
        for (int i = 0; i < 80; i++) {
            twoKinds[i] = (i % 2 == 0 ? 10 : 900) + random.nextDouble();
        }
        assertThat(LawTest.chance(twoKinds, NO_CAP, x -> x, SEED)).isLessThanOrEqualTo(0.01);
    }

    @Test
    void steadyPeaksPassAndChangingOnesAreFound() {
        int steadyRefused = 0;
        for (int i = 0; i < 200; i++) {
            SplittableRandom random = new SplittableRandom(SEED + i);
            List<Peak> steady = new ArrayList<>();
            for (int at = 0; at < 3_000; at++) {
                if (random.nextDouble() < 0.02) {
                    steady.add(new Peak(at, (int) (100 - 50 * Math.log(1 - random.nextDouble()))));
                }
            }
            PeakOrder order = PeakOrder.of(steady, 3_000).together();
            steadyRefused += least(order) <= 0.05 ? 1 : 0;
        }
        // at most 5 % of 200 are 10; 21 and more have a chance of 0.1 %
        assertThat(steadyRefused).as("seed %d", SEED).isLessThan(21);

        List<Peak> growing = new ArrayList<>();
        List<Peak> rarer = new ArrayList<>();
        List<Peak> bunched = new ArrayList<>();
        SplittableRandom random = new SplittableRandom(SEED);
        for (int i = 0; i < 60; i++) {
            growing.add(new Peak(50 * i, 200 + 3 * i + random.nextInt(60)));
            rarer.add(new Peak(15 * i + i * i / 2, 200 + random.nextInt(60)));
            bunched.add(new Peak(600 * (i / 12) + 4 * (i % 12), 200 + random.nextInt(60)));
        }
        assertThat(PeakOrder.of(growing, 3_000).together().sizes()).isLessThan(0.001);
        assertThat(PeakOrder.of(rarer, 3_000).together().times()).isLessThan(0.01);
        assertThat(PeakOrder.of(bunched, 3_000).together().bunches()).isLessThan(0.001);
    }

    /** The dispersion's chance against the χ² distribution itself. */
    @Test
    void theCubeRootComesCloseToChiSquared() {
        List<Peak> peaks = new ArrayList<>();
        int[] perSpan = {3, 9, 4, 7, 2, 11, 5, 3, 8, 8};
        for (int span = 0; span < perSpan.length; span++) {
            for (int i = 0; i < perSpan[span]; i++) {
                peaks.add(new Peak(100 * span + 5 * i, i * i));
            }
        }
        // 60 peaks are counted in 12 spans
        int[] counts = new int[12];
        peaks.forEach(peak -> counts[peak.at() * 12 / 1_000]++);
        double scatter = 0;
        for (int count : counts) {
            scatter += (count - 5.0) * (count - 5.0) / 5;
        }
        double reference = ChiSquaredDistribution.of(11).survivalProbability(scatter);
        assertThat(PeakOrder.of(peaks, 1_000).bunches()).isBetween(reference * 0.9, reference * 1.1);
    }

    private static double least(PeakOrder order) {
        return Math.min(order.sizes(), Math.min(order.times(), order.bunches()));
    }
}

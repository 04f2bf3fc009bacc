package tracksoak.report.stats;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;

/**
 * Whether excesses follow the law fitted to them: the Anderson–Darling distance, which weighs the tail most (Anderson and
 * Darling 1954), against the distances of samples drawn from that law and fitted again (parametric bootstrap: Stute,
 * Manteiga and Quindimil 1993, from memory), as the law's two figures come from the same data. Stateless.
 */
public final class LawTest {

    private static final int MOST_SAMPLES = 199;

    /** So many samples further away, and the answer is clear: no more are drawn (Besag and Clifford 1991, from memory). */
    private static final int ENOUGH = 12;

    private LawTest() {}

    /**
     * Chance of excesses at least so far from their law if they follow it, 0…1.
     *
     * @param excesses as they were fitted
     * @param cap as it was fitted with
     * @param seen what a record makes of a value: its resolution
     * @param seed of the samples
     */
    public static double chance(double[] excesses, double cap, DoubleUnaryOperator seen, long seed) {
        TailLaw law = TailFit.of(excesses, cap).law();
        double distance = distance(excesses, cap, law);
        SplittableRandom random = new SplittableRandom(seed);
        double[] sample = new double[excesses.length];
        int further = 0;
        for (int drawn = 1; drawn <= MOST_SAMPLES; drawn++) {
            int below = 0;
            for (int i = 0; i < sample.length; i++) {
                sample[i] = seen.applyAsDouble(law.excess(1 - random.nextDouble()));
                below += sample[i] < cap ? 1 : 0;
            }
            if (below >= 2 && distance(sample, cap, TailFit.of(sample, cap).law()) >= distance && ++further == ENOUGH) {
                return (double) further / drawn;
            }
        }
        return (further + 1.0) / (MOST_SAMPLES + 1);
    }

    private static double distance(double[] excesses, double cap, TailLaw law) {
        double[] sorted =
                Arrays.stream(excesses).map(x -> Math.min(x, cap)).sorted().toArray();
        int n = sorted.length;
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double beyond = inside(law.beyond(sorted[i]));
            double mirrored = inside(law.beyond(sorted[n - 1 - i]));
            sum += (2 * i + 1) * (Math.log1p(-beyond) + Math.log(mirrored));
        }
        return -n - sum / n;
    }

    private static double inside(double share) {
        return Math.max(1e-300, Math.min(1 - 1e-15, share));
    }
}

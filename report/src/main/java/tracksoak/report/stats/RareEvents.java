package tracksoak.report.stats;

import java.util.function.DoubleUnaryOperator;

/**
 * What can be said of events seen seldom or never: one-sided upper bounds that hold with a stated confidence. Any thread.
 */
public final class RareEvents {

    private static final int HALVINGS = 200;

    private RareEvents() {}

    /**
     * Upper bound of a probability after {@code events} in {@code trials} (Clopper and Pearson; for no event it is
     * 1 − (1 − confidence)^(1/trials), about 3 ÷ trials at 95 %: Hanley and Lippman-Hand, JAMA 1983).
     *
     * @param events events seen, 0…{@code trials}
     * @param trials trials made, at least 1
     * @param confidence 0…1, both excluded, for example 0.95
     */
    public static double probabilityBound(int events, int trials, double confidence) {
        require(events, confidence);
        if (trials < 1 || events > trials) {
            throw new IllegalArgumentException(events + " events in " + trials + " trials cannot be");
        }
        if (events == trials) {
            return 1;
        }
        if (events == 0) {
            return -Math.expm1(Math.log1p(-confidence) / trials);
        }
        return falling(p -> binomialAtMost(events, trials, p), 1 - confidence, 0, 1);
    }

    /**
     * Upper bound of the expected number of events after {@code events} were seen (exact Poisson: Garwood 1936); divide by
     * the time watched to get a rate.
     *
     * @param events events seen, at least 0
     * @param confidence 0…1, both excluded, for example 0.95
     */
    public static double countBound(int events, double confidence) {
        require(events, confidence);
        if (events == 0) {
            return -Math.log1p(-confidence);
        }
        double far = events + 10 * Math.sqrt(events + 1.0) - 10 * Math.log1p(-confidence);
        return falling(mean -> poissonAtMost(events, mean), 1 - confidence, 0, far);
    }

    private static void require(int events, double confidence) {
        if (events < 0 || !(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException(events + " events at confidence " + confidence
                    + "; events are ≥ 0, confidence lies within 0 and 1");
        }
    }

    /** Where a falling function takes a value, by halving. */
    private static double falling(DoubleUnaryOperator function, double value, double from, double to) {
        double low = from;
        double high = to;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (function.applyAsDouble(middle) > value) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }

    private static double binomialAtMost(int events, int trials, double p) {
        double sum = 0;
        double logTerm = trials * Math.log1p(-p);
        for (int k = 0; k <= events; k++) {
            sum += Math.exp(logTerm);
            logTerm += Math.log((double) (trials - k) / (k + 1)) + Math.log(p) - Math.log1p(-p);
        }
        return sum;
    }

    private static double poissonAtMost(int events, double mean) {
        double sum = 0;
        double logTerm = -mean;
        for (int k = 0; k <= events; k++) {
            sum += Math.exp(logTerm);
            logTerm += Math.log(mean) - Math.log(k + 1.0);
        }
        return sum;
    }
}

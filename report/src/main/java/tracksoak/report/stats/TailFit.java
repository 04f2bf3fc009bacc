package tracksoak.report.stats;

import java.util.Arrays;

/**
 * The generalised Pareto law that makes the excesses seen most likely (maximum likelihood). Likelihood and not
 * probability-weighted moments, because it takes an excess of which only the least is known (audio was lost, so how far it
 * would have gone is not), and because it gives the interval (profile likelihood) as well as the best guess.
 *
 * <p>With θ = ξ ÷ σ the likelihood needs each excess once per θ only and is known in ξ (Grimshaw, Technometrics 1993); θ is
 * walked as (e^s − 1) ÷ largest, so that s from −∞ to ∞ is every law that allows the largest. ξ is kept within −1 and 3:
 * below −1 the likelihood has no bound. Immutable, any thread.
 */
public final class TailFit {

    static final double LEAST_SHAPE = -1;
    static final double MOST_SHAPE = 3;
    static final double FIRST_S = -12;
    static final double LAST_S = 16;
    private static final double STEP = 0.2;
    private static final double NO_S = 1e-6;
    private static final int NARROWINGS = 40;
    private static final double LEAST_BEYOND = -0.9;
    private static final double MOST_BEYOND = 1e200;
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    private final double[] whole;
    private final double[] atLeast;
    private final double largest;
    private final At best;

    /**
     * A law's place.
     *
     * @param theta ξ ÷ σ
     * @param shape ξ that is most likely there, bounds or not
     * @param logs Σ ln(1 + θx) over whole excesses
     * @param atLeastLogs the same over those only known to be at least so large
     */
    record At(double theta, double shape, double logs, double atLeastLogs) {}

    private TailFit(double[] whole, double[] atLeast) {
        this.whole = whole;
        this.atLeast = atLeast;
        this.largest = Math.max(
                Arrays.stream(whole).max().orElseThrow(),
                Arrays.stream(atLeast).max().orElse(0));
        this.best = search();
    }

    /**
     * Fits a law.
     *
     * @param excesses beyond the threshold, each above 0; at least two below the cap
     * @param cap an excess of this or more is only known to be at least the cap; infinite where there is none
     * @throws IllegalArgumentException if there are too few or one is not above 0
     */
    public static TailFit of(double[] excesses, double cap) {
        double[] whole = Arrays.stream(excesses).filter(x -> x < cap).toArray();
        if (whole.length < 2 || Arrays.stream(excesses).anyMatch(x -> !(x > 0))) {
            throw new IllegalArgumentException(
                    whole.length + " excesses below the cap; a law needs two or more, all above 0");
        }
        double[] atLeast = new double[excesses.length - whole.length];
        Arrays.fill(atLeast, cap);
        return new TailFit(whole, atLeast);
    }

    /** The law that makes them most likely. */
    public TailLaw law() {
        double shape = within(best.shape());
        return new TailLaw(shape, shape / best.theta());
    }

    /** Natural logarithm of the likelihood of that law. */
    public double logLikelihood() {
        return logLikelihood(best, within(best.shape()));
    }

    /** Excesses fitted. */
    public int count() {
        return whole.length + atLeast.length;
    }

    /** Excesses below the cap. */
    int wholeCount() {
        return whole.length;
    }

    /** Where {@code s} leads; never quite to θ = 0, where the arithmetic has no answer though the law has. */
    At at(double s) {
        double theta = Math.expm1(Math.abs(s) < NO_S ? NO_S : s) / largest;
        double logs = logs(whole, theta);
        double atLeastLogs = logs(atLeast, theta);
        return new At(theta, (logs + atLeastLogs) / whole.length, logs, atLeastLogs);
    }

    /** Where {@code s} of the best law lies. */
    double bestS() {
        return Math.log1p(best.theta() * largest);
    }

    double logLikelihood(At at, double shape) {
        return whole.length * Math.log(at.theta() / shape) - (1 + 1 / shape) * at.logs() - at.atLeastLogs() / shape;
    }

    static double within(double shape) {
        return Math.max(LEAST_SHAPE, Math.min(MOST_SHAPE, shape));
    }

    /** Logarithms of products, as one takes as long as twenty factors; what each product has beyond 1 is kept, so that small ones count. */
    private static double logs(double[] excesses, double theta) {
        double sum = 0;
        double beyond = 0;
        for (double excess : excesses) {
            double factor = theta * excess;
            beyond += factor + beyond * factor;
            if (beyond < LEAST_BEYOND || beyond > MOST_BEYOND) {
                sum += Math.log1p(beyond);
                beyond = 0;
            }
        }
        return sum + Math.log1p(beyond);
    }

    private double profile(double s) {
        At at = at(s);
        return logLikelihood(at, within(at.shape()));
    }

    private At search() {
        double middle = FIRST_S;
        double most = Double.NEGATIVE_INFINITY;
        for (double s = FIRST_S; s <= LAST_S; s += STEP) {
            double here = profile(s);
            if (here > most) {
                most = here;
                middle = s;
            }
        }
        double low = middle - STEP;
        double high = middle + STEP;
        double left = high - GOLDEN * (high - low);
        double right = low + GOLDEN * (high - low);
        double atLeft = profile(left);
        double atRight = profile(right);
        for (int i = 0; i < NARROWINGS; i++) {
            if (atLeft > atRight) {
                high = right;
                right = left;
                atRight = atLeft;
                left = high - GOLDEN * (high - low);
                atLeft = profile(left);
            } else {
                low = left;
                left = right;
                atLeft = atRight;
                right = low + GOLDEN * (high - low);
                atRight = profile(right);
            }
        }
        return at((low + high) / 2);
    }
}

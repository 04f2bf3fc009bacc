package tracksoak.report.stats;

import java.util.ArrayList;
import java.util.List;

/**
 * What peaks over a threshold say of larger ones: how often they come (Poisson) and how far they go ({@link TailFit}), with
 * an interval from the profile likelihood (Coles 2001, §2.6.6 and §4.3.3): a figure can be anything that some rate and law
 * make it whose likelihood, both parts together, lies no further below the best than half the χ² quantile of one degree of
 * freedom, times 1 + {@value #FEW} ÷ peaks: with few peaks the quantile alone holds the truth too seldom (own correction,
 * from seeded samples of known laws). Immutable, any thread.
 */
public final class PeakOdds {

    /** 95 % quantile of χ² with one degree of freedom. */
    private static final double DROP = 3.841458820694124;

    private static final int FEW = 16;

    private static final double WALK = 0.1;
    private static final int PLACES = 160;
    private static final int SHAPES = 24;
    private static final int STEPS = 60;

    private final double threshold;
    private final TailFit fit;
    private final double rate;
    private final double drop;
    private final List<Likely> region;

    /** A law, and the rates in 1/s that are likely enough together with it. */
    private record Likely(TailLaw law, double leastRate, double mostRate) {}

    /**
     * A figure.
     *
     * @param least lower end of the 95 % interval
     * @param best the most likely value
     * @param most upper end
     */
    public record Range(double least, double best, double most) {}

    /**
     * Looks at peaks.
     *
     * @param threshold beyond which the excesses are counted
     * @param fit of the excesses
     * @param seconds how long was watched, in s
     */
    public PeakOdds(double threshold, TailFit fit, double seconds) {
        this(threshold, fit, seconds, FEW);
    }

    /** The same with another correction for few peaks; 0 for none. */
    PeakOdds(double threshold, TailFit fit, double seconds, int few) {
        this.threshold = threshold;
        this.fit = fit;
        this.rate = fit.count() / seconds;
        this.drop = DROP * (1 + (double) few / fit.count());
        this.region = region();
    }

    /** The most likely law. */
    public TailLaw law() {
        return fit.law();
    }

    /** Peaks a second. */
    public double rate() {
        return rate;
    }

    /** How many peaks higher than {@code value} come in {@code seconds}, on average. */
    public Range expected(double value, double seconds) {
        double excess = value - threshold;
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (Likely each : region) {
            double beyond = each.law().beyond(excess);
            least = Math.min(least, each.leastRate() * beyond);
            most = Math.max(most, each.mostRate() * beyond);
        }
        double best = rate * fit.law().beyond(excess);
        return new Range(Math.min(least, best) * seconds, best * seconds, Math.max(most, best) * seconds);
    }

    /** Chance that at least one peak in {@code seconds} is higher than {@code value}, 0…1. */
    public Range chance(double value, double seconds) {
        Range expected = expected(value, seconds);
        return new Range(-Math.expm1(-expected.least()), -Math.expm1(-expected.best()), -Math.expm1(-expected.most()));
    }

    /** The value that is passed once in {@code seconds} on average; the threshold where peaks come no more often. */
    public Range level(double seconds) {
        double best = level(fit.law(), rate, seconds);
        double least = best;
        double most = best;
        for (Likely each : region) {
            least = Math.min(least, level(each.law(), each.leastRate(), seconds));
            most = Math.max(most, level(each.law(), each.mostRate(), seconds));
        }
        return new Range(least, best, most);
    }

    private double level(TailLaw law, double perSecond, double seconds) {
        double peaks = perSecond * seconds;
        return peaks <= 1 ? threshold : threshold + law.excess(1 / peaks);
    }

    private List<Likely> region() {
        double from = edge(-WALK);
        double to = edge(WALK);
        List<Likely> likely = new ArrayList<>();
        for (int place = 0; place <= PLACES; place++) {
            along(fit.at(from + (to - from) * place / PLACES), likely);
        }
        return likely;
    }

    /** The last place in a direction that is likely enough with its best shape. */
    private double edge(double step) {
        double s = fit.bestS();
        while (s + step > TailFit.FIRST_S && s + step < TailFit.LAST_S && fallen(fit.at(s + step)) <= drop) {
            s += step;
        }
        double likely = s;
        double unlikely = s + step;
        for (int i = 0; i < 20; i++) {
            double middle = (likely + unlikely) / 2;
            if (fallen(fit.at(middle)) <= drop) {
                likely = middle;
            } else {
                unlikely = middle;
            }
        }
        return likely;
    }

    private double fallen(TailFit.At at) {
        return fallen(at, TailFit.within(at.shape()));
    }

    /** Twice how far the likelihood of a law lies below the best. */
    private double fallen(TailFit.At at, double shape) {
        return Math.max(0, 2 * (fit.logLikelihood() - fit.logLikelihood(at, shape)));
    }

    private void along(TailFit.At at, List<Likely> likely) {
        double left = drop - 2 * (fit.logLikelihood() - fit.logLikelihood(at, at.shape()));
        if (left < 0) {
            return;
        }
        double least = ratio(left / (2 * fit.wholeCount()), false);
        double most = ratio(left / (2 * fit.wholeCount()), true);
        for (int i = 0; i <= SHAPES; i++) {
            double shape = at.shape() / (least + (most - least) * i / SHAPES);
            double rest = drop - fallen(at, shape);
            if (shape >= TailFit.LEAST_SHAPE && shape <= TailFit.MOST_SHAPE && rest >= -1e-9) {
                double half = Math.max(0, rest) / (2 * fit.count());
                likely.add(new Likely(
                        new TailLaw(shape, shape / at.theta()), rate * ratio(half, false), rate * ratio(half, true)));
            }
        }
    }

    /** Solves w − 1 − ln w = fall, above or below 1: how far a Poisson rate, or 1 ÷ shape at one θ, may be from its best. */
    static double ratio(double fall, boolean above) {
        if (fall <= 0) {
            return 1;
        }
        // both starts lie beyond the solution on the side where Newton's steps come down to it without passing it
        double w = above ? 1 + Math.sqrt(2 * fall) + fall : Math.exp(-1 - fall);
        for (int i = 0; i < STEPS; i++) {
            double next = w - (w - 1 - Math.log(w) - fall) / (1 - 1 / w);
            if (!(Math.abs(next - w) > 1e-12 * w) || next == 1) {
                break;
            }
            w = next;
        }
        return w;
    }
}

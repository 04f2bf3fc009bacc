package tracksoak.report.stats;

/**
 * How far peaks go beyond a threshold: the generalised Pareto distribution (Coles, An Introduction to Statistical Modeling
 * of Extreme Values, 2001, §4.2). Immutable.
 *
 * @param shape ξ: below 0 there is a largest peak, at 0 the law is exponential, above 0 the tail is heavy
 * @param scale σ, in the unit of the peaks, above 0
 */
public record TailLaw(double shape, double scale) {

    private static final double NEARLY_EXPONENTIAL = 1e-9;

    /** @throws IllegalArgumentException if the scale is not above 0 or a figure is no number */
    public TailLaw {
        if (!(scale > 0) || !Double.isFinite(scale) || !Double.isFinite(shape)) {
            throw new IllegalArgumentException("shape " + shape + ", scale " + scale + "; the scale is above 0");
        }
    }

    /** Share of peaks that go further than {@code excess} beyond the threshold, 0…1. */
    public double beyond(double excess) {
        if (excess <= 0) {
            return 1;
        }
        if (Math.abs(shape) < NEARLY_EXPONENTIAL) {
            return Math.exp(-excess / scale);
        }
        double at = shape * excess / scale;
        return at <= -1 ? 0 : Math.exp(-Math.log1p(at) / shape);
    }

    /** The excess that only {@code share} of all peaks go beyond. */
    public double excess(double share) {
        double log = Math.log(share);
        return Math.abs(shape) < NEARLY_EXPONENTIAL ? -scale * log : scale * Math.expm1(-shape * log) / shape;
    }
}

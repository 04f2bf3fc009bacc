package tracksoak.report.stats;

/**
 * Whether a drive has settled, by the rule of the SNIA Solid State Storage Performance Test Specification 2.0.2, §2.1.24:
 * over five rounds the values range over no more than 20 % of their mean, and the least-squares line through them rises
 * or falls over the window by no more than 10 % of their mean. Both limits count as met on the boundary. Any thread.
 *
 * @param rangeShare (largest − smallest) ÷ mean, 0…
 * @param slopeShare rise or fall of the least-squares line from the first to the last round ÷ mean, 0…
 * @param steady whether both are within their limits
 */
public record SteadyState(double rangeShare, double slopeShare, boolean steady) {

    /** Rounds in the window. */
    public static final int ROUNDS = 5;

    /** Largest range allowed, as a share of the mean. */
    public static final double MOST_RANGE = 0.20;

    /** Largest excursion of the line allowed, as a share of the mean. */
    public static final double MOST_SLOPE = 0.10;

    private static final double TOLERANCE = 1e-9;

    /**
     * Judges the last five rounds. Rounds in which nothing at all was written are not steady.
     *
     * @param lastFiveRounds mean rate of each round in B/s, oldest first, finite and not negative
     * @throws IllegalArgumentException if there are not five, or one is negative or no number
     */
    public static SteadyState of(double[] lastFiveRounds) {
        if (lastFiveRounds.length != ROUNDS) {
            throw new IllegalArgumentException("steady state is judged over " + ROUNDS + " rounds, not "
                    + lastFiveRounds.length + "; give the last " + ROUNDS);
        }
        double sum = 0;
        double most = 0;
        double least = Double.MAX_VALUE;
        double moment = 0;
        for (int i = 0; i < ROUNDS; i++) {
            double rate = lastFiveRounds[i];
            if (!Double.isFinite(rate) || rate < 0) {
                throw new IllegalArgumentException(
                        "round " + i + " has rate " + rate + " B/s; rates are finite and ≥ 0");
            }
            sum += rate;
            most = Math.max(most, rate);
            least = Math.min(least, rate);
            moment += (i - (ROUNDS - 1) / 2.0) * rate;
        }
        if (sum == 0) {
            return new SteadyState(0, 0, false);
        }
        double mean = sum / ROUNDS;
        double squares = ROUNDS * (ROUNDS * ROUNDS - 1) / 12.0;
        double range = (most - least) / mean;
        double slope = Math.abs(moment / squares) * (ROUNDS - 1) / mean;
        return new SteadyState(range, slope, range <= MOST_RANGE + TOLERANCE && slope <= MOST_SLOPE + TOLERANCE);
    }
}

package tracksoak.report.history;

import org.jspecify.annotations.Nullable;
import tracksoak.report.stats.Trend;

/**
 * When a figure that gets worse at its pace so far meets what the session asks. Told no further ahead than twice the time
 * the runs span: beyond that the pace is anybody's guess (own limit).
 *
 * @param leftDays days from the last run, by the line; 0 where it is past the limit, null where most runs are alike and the
 *     line tells no pace
 * @param words the end of the sentence
 */
record LimitForecast(@Nullable Double leftDays, String words) {

    private static final double FARTHEST = 2;

    /**
     * Of a figure that gets worse.
     *
     * @param trend with times in days
     * @param figure whose it is
     * @param latest of the last run, in the figure's unit
     * @param limit in the figure's unit
     * @param firstDay of the first run
     * @param lastDay of the last run
     * @param middleDay median of the days
     */
    static LimitForecast of(
            Trend trend,
            Figure figure,
            double latest,
            double limit,
            double firstDay,
            double lastDay,
            double middleDay) {
        String what = "this session's limit of " + figure.show(limit);
        if (figure.lessIsWorse() ? latest < limit : latest > limit) {
            return new LimitForecast(0.0, "it is past " + what);
        }
        double now = trend.at(lastDay);
        if (figure.lessIsWorse() ? now <= limit : now >= limit) {
            return new LimitForecast(0.0, "by the line through all runs it is past " + what);
        }
        if (trend.slope() == 0) {
            return new LimitForecast(null, "when it meets " + what + " cannot be told, as most runs are alike");
        }
        double left = (limit - now) / trend.slope();
        double farthest = FARTHEST * (lastDay - firstDay);
        if (left > farthest) {
            return new LimitForecast(
                    left,
                    "at this pace it keeps clear of " + what + " for longer than these runs can tell ("
                            + DaysInWords.atLeast(farthest) + ")");
        }
        double middle = trend.at(middleDay);
        double one = middleDay + (limit - middle) / trend.leastSlope() - lastDay;
        double other = middleDay + (limit - middle) / trend.mostSlope() - lastDay;
        double soonest = Math.max(0, Math.min(positive(one), positive(other)));
        double latestDays = Math.max(positive(one), positive(other));
        return new LimitForecast(
                left,
                "at this pace it meets " + what
                        + (left < 1 ? " any day now" : " in about " + DaysInWords.words(left))
                        + " (95 % interval of the pace: "
                        + (soonest < 1 ? "any day now" : "in " + DaysInWords.atLeast(soonest) + " at the soonest")
                        + ", "
                        + (latestDays <= 2 * farthest
                                ? "in " + DaysInWords.atMost(latestDays) + " at the latest"
                                : "no latest time can be told")
                        + ")");
    }

    /** Time until the limit; never, where the figure goes the other way. */
    private static double positive(double days) {
        return Double.isNaN(days) || days < 0 ? Double.POSITIVE_INFINITY : days;
    }
}

package tracksoak.report.history;

import tracksoak.report.stats.Trend;

/**
 * When a figure that gets worse at its pace so far meets what the session asks. Told no further ahead than twice the time
 * the runs span: beyond that the pace is anybody's guess (own limit).
 */
final class LimitForecast {

    private static final double FARTHEST = 2;

    private LimitForecast() {}

    /**
     * The end of the sentence.
     *
     * @param trend with times in days
     * @param figure whose it is
     * @param limit in the figure's unit
     * @param firstDay of the first run
     * @param lastDay of the last run
     * @param middleDay median of the days
     */
    static String words(Trend trend, Figure figure, double limit, double firstDay, double lastDay, double middleDay) {
        String what = "this session's limit of " + figure.show(limit);
        double now = trend.at(lastDay);
        boolean past = figure.lessIsWorse() ? now <= limit : now >= limit;
        if (past) {
            return "by the line through all runs it is past " + what;
        }
        double left = (limit - now) / trend.slope();
        double farthest = FARTHEST * (lastDay - firstDay);
        if (!(left <= farthest)) {
            return "at this pace it keeps clear of " + what + " for longer than these runs can tell ("
                    + DaysInWords.words(farthest) + ")";
        }
        double middle = trend.at(middleDay);
        double one = middleDay + (limit - middle) / trend.leastSlope() - lastDay;
        double other = middleDay + (limit - middle) / trend.mostSlope() - lastDay;
        double soonest = Math.max(0, Math.min(positive(one), positive(other)));
        double latest = Math.max(positive(one), positive(other));
        String range = soonest < 1 ? "any day now" : "in " + DaysInWords.words(soonest) + " at the soonest";
        return "at this pace it meets " + what + " in about " + DaysInWords.words(left)
                + " (95 % interval of the pace: "
                + range
                + ", "
                + (latest <= 2 * farthest
                        ? "in " + DaysInWords.words(latest) + " at the latest"
                        : "no latest time can be told")
                + ")";
    }

    /** Time until the limit; never, where the figure goes the other way. */
    private static double positive(double days) {
        return Double.isNaN(days) || days < 0 ? Double.POSITIVE_INFINITY : days;
    }
}

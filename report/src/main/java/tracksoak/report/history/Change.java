package tracksoak.report.history;

import org.jspecify.annotations.Nullable;
import tracksoak.report.stats.Spread;
import tracksoak.report.stats.Trend;

/**
 * What became of one figure over the runs that can be compared.
 *
 * @param figure which
 * @param now of the latest run, in the figure's unit; null if it does not have it
 * @param earlier spread of the earlier runs, null if none has it
 * @param limit where it meets what the session asks, null where nothing is asked of it
 * @param trend over all of them, the latest included; null where there are too few or too close together in time
 * @param chance chance of getting worse so clearly if nothing had changed, all figures asked about together (Holm 1979);
 *     null without a trend
 * @param leftDays days until it meets its limit at its pace, 0 where it is past it; null unless it gets worse and that can be told
 * @param verdict what can be said
 * @param sentence the same in words
 */
public record Change(
        Figure figure,
        @Nullable Double now,
        @Nullable Spread earlier,
        @Nullable Double limit,
        @Nullable Trend trend,
        @Nullable Double chance,
        @Nullable Double leftDays,
        Said verdict,
        String sentence) {

    /** What can be said of a figure. */
    public enum Said {
        /** It gets worse, by the test. */
        WORSE,
        /** This run alone is worse than all earlier ones, by more than they lie apart from each other. */
        APART,
        /** No trend for the worse beyond what chance makes. */
        NO_CHANGE,
        /** It is another than before, where no test is needed to say so. */
        OTHER,
        /** Too few runs that can be compared, or all too close together in time. */
        TOO_FEW,
        /** There is nothing to compare. */
        NOTHING
    }

    /** Whether the latest run is worse than all earlier ones, by more than is too little to matter. */
    public boolean worst() {
        return now != null && earlier != null && figure.ages() && worseBy(figure, now, earlier) > tooLittle(earlier);
    }

    /** The rule of {@link Said#APART}, which asks for as many runs as a trend. */
    static boolean apart(Figure figure, double now, Spread earlier) {
        double beyond = worseBy(figure, now, earlier);
        return figure.ages()
                && earlier.n() >= DriveHistory.LEAST_RUNS - 1
                && beyond > earlier.most() - earlier.least()
                && beyond > tooLittle(earlier);
    }

    Change saying(String words) {
        return new Change(figure, now, earlier, limit, trend, chance, leftDays, verdict, words);
    }

    /** How far a value lies beyond the worst of others, in the figure's unit; below 0 within them. */
    static double worseBy(Figure figure, double value, Spread others) {
        return figure.lessIsWorse() ? others.least() - value : value - others.most();
    }

    /** A change that is no larger is told as none, in the figure's unit. */
    static double tooLittle(Spread values) {
        return DriveHistory.LEAST_CHANGE * Math.abs(values.median());
    }
}

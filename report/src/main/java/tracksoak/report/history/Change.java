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
        Said verdict,
        String sentence) {

    /** What can be said of a figure. */
    public enum Said {
        /** It gets worse, by the test. */
        WORSE,
        /** No trend for the worse beyond what chance makes. */
        NO_CHANGE,
        /** It is another than before, where no test is needed to say so. */
        OTHER,
        /** Too few runs that can be compared, or all too close together in time. */
        TOO_FEW,
        /** There is nothing to compare. */
        NOTHING
    }
}

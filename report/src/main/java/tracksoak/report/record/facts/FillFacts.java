package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a fill found.
 *
 * @param ended why the fill ended
 * @param steady whether the last rounds were steady (SNIA PTS 2.0.2 §2.1.24)
 * @param roundS length of one round in s
 * @param roundsBytesPerSecond mean rate of each whole round, in B/s
 * @param floorBytesPerSecond lowest mean rate over any window of {@code floorWindowS} of the whole fill, in B/s; in older
 *     records over its steady rounds where there were such
 * @param floorWindowS length of that window in s
 * @param cliffAtBytes bytes written when a fast cache gave out, null if none was seen
 * @param rateBeforeBytesPerSecond mean rate before the cliff, in B/s, null without one
 * @param rateAfterBytesPerSecond mean rate after the cliff, in B/s, null without one
 * @param room bytes the fill could have written before the reserve
 */
public record FillFacts(
        Ended ended,
        boolean steady,
        double roundS,
        List<Double> roundsBytesPerSecond,
        double floorBytesPerSecond,
        double floorWindowS,
        @Nullable Long cliffAtBytes,
        @Nullable Double rateBeforeBytesPerSecond,
        @Nullable Double rateAfterBytesPerSecond,
        long room) {

    /** Why a fill ended. */
    public enum Ended {
        /** Steady, and as much written as the session itself would write; in older records, or past a cliff. */
        STEADY,
        /** As much written as the session itself would write, and five rounds more, without becoming steady. */
        ENOUGH,
        /** Steady below what the session needs: more writing cannot change the answer. */
        BELOW_NEED,
        /** All the room there was is written. */
        FULL,
        /** The time allowed ran out. */
        CAP,
        /** All that was to be copied is. */
        COPIED,
        /** A fault or a person ended it. */
        CUT_SHORT
    }

    public FillFacts {
        roundsBytesPerSecond = List.copyOf(roundsBytesPerSecond);
    }
}

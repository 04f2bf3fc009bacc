package tracksoak.bench.phase;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.ReadyFacts;

/**
 * What a run's record says besides what is measured in it.
 *
 * @param tag what the crew calls the drive, null if nobody said
 * @param requalifies id of the earlier run whose plan is repeated, empty for none
 * @param keepsakeBytes bytes to be left on the drive for a later run, 0 for none
 * @param ready how long the drive took to become usable, null unless it was waited for
 */
public record Besides(
        @Nullable String tag,
        String requalifies,
        long keepsakeBytes,
        @Nullable ReadyFacts ready) {

    /** Nothing. */
    public static final Besides NOTHING = new Besides(null, "", 0, null);
}

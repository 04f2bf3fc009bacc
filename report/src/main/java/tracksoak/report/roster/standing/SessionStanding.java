package tracksoak.report.roster.standing;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The standing of one drive for one session, and what decided it.
 *
 * @param standing the standing
 * @param since when that began: the PASS, the FAIL, the withdrawal, or the day it fell due; null while unproven
 * @param validUntil for trusted and due: when the PASS stops or stopped counting; else null
 * @param decidedBy name of the event that decided it, null while unproven
 * @param wholeCapacity for trusted and due: whether the PASS proved the whole capacity
 * @param why one plain sentence
 */
public record SessionStanding(
        Standing standing,
        @Nullable Instant since,
        @Nullable Instant validUntil,
        @Nullable String decidedBy,
        boolean wholeCapacity,
        String why) {}

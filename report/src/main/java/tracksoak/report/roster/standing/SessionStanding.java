package tracksoak.report.roster.standing;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The standing of one drive for one session, and what decided it.
 *
 * @param standing the standing
 * @param since when that began: the PASS, the FAIL, the withdrawal, or the day it fell due; null while unproven
 * @param validUntil for trusted: when the runs that prove it stop being enough; for cleared and due: when the latest PASS stops or
 *     stopped counting; else null
 * @param decidedBy name of the event that decided it, null while unproven
 * @param wholeCapacity for trusted, cleared and due: whether a PASS that counts proved the whole capacity
 * @param evidence for trusted and cleared: what was seen so far; else null
 * @param why one plain sentence
 * @param holds how long all of this stays so while no event comes in
 */
public record SessionStanding(
        Standing standing,
        @Nullable Instant since,
        @Nullable Instant validUntil,
        @Nullable String decidedBy,
        boolean wholeCapacity,
        @Nullable Evidence evidence,
        String why,
        TimeSpan holds) {

    /** Of a drive of which nothing is known. */
    public static SessionStanding unproven(String why, TimeSpan holds) {
        return new SessionStanding(Standing.UNPROVEN, null, null, null, false, null, why, holds);
    }

    /** The same, shown beside what holds for {@code span} only. */
    public SessionStanding within(TimeSpan span) {
        return new SessionStanding(
                standing, since, validUntil, decidedBy, wholeCapacity, evidence, why, holds.and(span));
    }
}

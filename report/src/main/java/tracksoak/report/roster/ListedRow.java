package tracksoak.report.roster;

import java.time.Instant;
import tracksoak.report.roster.standing.Evidence;
import tracksoak.report.roster.standing.Standing;

/** A row, and what orders and searches need of its drive. */
record ListedRow(BoardRow row, KnownDrive drive) {

    Standing standing() {
        return row.standing().standing();
    }

    /** Time seen at the session's pace in ms, 0 where it does not count. */
    long seenMs() {
        Evidence evidence = row.standing().evidence();
        return evidence == null ? 0 : evidence.paceMs();
    }

    Instant validUntilOr(Instant none) {
        Instant until = row.standing().validUntil();
        return until == null ? none : until;
    }
}

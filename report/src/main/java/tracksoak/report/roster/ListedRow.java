package tracksoak.report.roster;

import java.time.Instant;
import tracksoak.report.roster.standing.Standing;

/** A row, and what orders and searches need of its drive. */
record ListedRow(BoardRow row, KnownDrive drive) {

    Standing standing() {
        return row.standing().standing();
    }

    Instant validUntilOr(Instant none) {
        Instant until = row.standing().validUntil();
        return until == null ? none : until;
    }
}

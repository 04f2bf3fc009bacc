package tracksoak.report.roster;

import java.time.Instant;
import java.util.Comparator;
import tracksoak.report.roster.BoardQuery.Sort;
import tracksoak.report.roster.standing.Standing;

/** Orders of rows; no two drives are equal in one. Pure. */
final class BoardOrder {

    /** Drives by their tag, those without one last. */
    static final Comparator<KnownDrive> DRIVES = Comparator.comparing(KnownDrive::untagged)
            .thenComparing(KnownDrive::label)
            .thenComparing(KnownDrive::id);

    private static final Comparator<ListedRow> BY_LABEL = Comparator.comparing(ListedRow::drive, DRIVES);

    private BoardOrder() {}

    static Comparator<ListedRow> of(Sort sort, boolean descending) {
        Comparator<ListedRow> first = switch (sort) {
            case LABEL -> BY_LABEL;
            case STANDING -> Comparator.comparing(ListedRow::standing);
            case READINESS ->
                Comparator.comparing(ListedRow::standing)
                        .thenComparingLong(row -> row.standing() == Standing.CLEARED ? -row.seenMs() : 0)
                        .thenComparing(row -> row.validUntilOr(Instant.MIN), Comparator.reverseOrder());
            case VALID_UNTIL -> Comparator.comparing(row -> row.validUntilOr(descending ? Instant.MIN : Instant.MAX));
            case LAST_RUN -> Comparator.comparingLong(row -> row.drive().state().lastRecordMs());
            case MODEL -> Comparator.comparing(row -> row.drive().title());
        };
        return (descending ? first.reversed() : first).thenComparing(BY_LABEL);
    }
}

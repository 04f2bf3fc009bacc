package tracksoak.report.roster;

import java.time.Instant;
import java.util.Comparator;
import tracksoak.report.roster.BoardQuery.Sort;
import tracksoak.report.roster.standing.Standing;

/** Orders of rows; no two drives are equal in one. Pure. */
final class BoardOrder {

    /** Drives by their tag, those without one last. */
    static final Comparator<KnownDrive> DRIVES = BoardOrder::drives;

    private static final Comparator<ListedRow> BY_LABEL = (one, other) -> drives(one.drive(), other.drive());

    private BoardOrder() {}

    /** By hand: comparators put together ask three times as much of each of many thousand comparings. */
    private static int drives(KnownDrive one, KnownDrive other) {
        if (one.untagged() != other.untagged()) {
            return one.untagged() ? 1 : -1;
        }
        int byLabel = one.label().compareTo(other.label());
        return byLabel != 0 ? byLabel : one.id().compareTo(other.id());
    }

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
        Comparator<ListedRow> turned = descending ? first.reversed() : first;
        // no two are equal by label
        return sort == Sort.LABEL ? turned : turned.thenComparing(BY_LABEL);
    }
}

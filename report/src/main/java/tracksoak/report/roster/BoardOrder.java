package tracksoak.report.roster;

import java.time.Instant;
import java.util.Comparator;
import tracksoak.report.roster.BoardQuery.Sort;

/** Orders of rows. Pure. */
final class BoardOrder {

    private static final Comparator<BoardRow> BY_LABEL = Comparator.comparing(
                    (BoardRow row) -> row.drive().tags().isEmpty())
            .thenComparing(BoardRow::label)
            .thenComparing(row -> row.drive().id());

    private BoardOrder() {}

    static Comparator<BoardRow> of(Sort sort, boolean descending) {
        Comparator<BoardRow> first = switch (sort) {
            case LABEL -> BY_LABEL;
            case STANDING -> Comparator.comparing(row -> row.standing().standing());
            case VALID_UNTIL -> Comparator.comparing(row -> until(row, descending));
            case LAST_RUN -> Comparator.comparingLong(row -> row.drive().lastRecordMs());
            case MODEL -> Comparator.comparing(BoardRow::title);
        };
        return (descending ? first.reversed() : first).thenComparing(BY_LABEL);
    }

    private static Instant until(BoardRow row, boolean descending) {
        Instant until = row.standing().validUntil();
        return until != null ? until : descending ? Instant.MIN : Instant.MAX;
    }
}

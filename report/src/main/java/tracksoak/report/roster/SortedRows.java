package tracksoak.report.roster;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.roster.standing.Mark;
import tracksoak.report.roster.standing.Question;

/**
 * The rows of one version in the orders they were asked for, kept until time alone changes one: the next PASS falls due, or the next record of
 * the future comes of age. Any thread.
 */
final class SortedRows {

    private static final int MOST_KEPT = 64;

    private final RosterView view;
    private final Map<Key, Kept> kept = new ConcurrentHashMap<>();

    private record Key(@Nullable Session session, BoardQuery.Sort sort, boolean descending) {}

    private record Kept(List<BoardRow> rows, Instant from, Instant until) {
        boolean holds(Instant now) {
            return !now.isBefore(from) && !now.isAfter(until);
        }
    }

    SortedRows(RosterView view) {
        this.view = view;
    }

    List<BoardRow> of(BoardQuery query, Instant now) {
        Key key = new Key(query.session(), query.sort(), query.descending());
        Kept found = kept.get(key);
        if (found == null || !found.holds(now)) {
            List<BoardRow> rows = view.rows(query.session(), now).stream()
                    .sorted(BoardOrder.of(query.sort(), query.descending()))
                    .toList();
            found = new Kept(rows, now, nextChange(rows, now));
            if (kept.size() >= MOST_KEPT) {
                kept.clear();
            }
            kept.put(key, found);
        }
        return found.rows();
    }

    /** The last moment at which all these rows are still so. */
    private static Instant nextChange(List<BoardRow> rows, Instant now) {
        Instant next = Instant.MAX;
        long soonMs = now.plus(Question.CLOCKS_DIFFER).toEpochMilli();
        for (BoardRow row : rows) {
            Instant until = row.standing().validUntil();
            if (until != null && !until.isBefore(now) && until.isBefore(next)) {
                next = until;
            }
            for (Mark mark : row.drive().marks()) {
                Instant ofAge = Instant.ofEpochMilli(mark.atMs()).minus(Question.CLOCKS_DIFFER);
                if (mark.atMs() > soonMs && !ofAge.isAfter(next)) {
                    next = ofAge.minusMillis(1);
                }
            }
        }
        return next;
    }
}

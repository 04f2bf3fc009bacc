package tracksoak.report.roster;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.roster.standing.Standing;

/**
 * What to list. Immutable; begin with {@link #all} or {@link #tonight} and narrow it down.
 *
 * @param session the session standings are for; null for each drive the session of its latest record
 * @param standings standings wanted, empty for all
 * @param text letters that must be in the tag, id, maker, model, serial or latest note; empty for all
 * @param unsettled whether drives with a conflict of tags are left out
 * @param sort order
 * @param descending whether the order is turned round
 * @param offset rows passed over, 0 or more
 * @param limit most rows wanted, 1 to {@value #MOST_ROWS}
 */
public record BoardQuery(
        @Nullable Session session,
        Set<Standing> standings,
        String text,
        boolean unsettled,
        Sort sort,
        boolean descending,
        int offset,
        int limit) {

    /** Most rows of one page. */
    public static final int MOST_ROWS = 10_000;

    /** Standings of drives that can be taken. */
    public static final Set<Standing> TONIGHT = Set.of(Standing.TRUSTED, Standing.CLEARED);

    /** Longest text searched for, in characters. */
    public static final int LONGEST_TEXT = 100;

    /** Orders; drives that are equal in one come by label, then by id. */
    public enum Sort {
        /** By tag, those without one last. */
        LABEL,
        /** Trusted, cleared, due, failed, unproven, withdrawn. */
        STANDING,
        /** By standing; of the trusted the one that stays so longest first, of the cleared the one that was seen longest. */
        READINESS,
        /** By the day the PASS stops counting, the next first, those without one last. */
        VALID_UNTIL,
        /** By the latest record, the oldest first. */
        LAST_RUN,
        /** By maker and model. */
        MODEL
    }

    /** @throws Problem if offset, limit or text is out of range */
    public BoardQuery {
        standings = Set.copyOf(standings);
        if (text.length() > LONGEST_TEXT) {
            throw Problem.askedWrong(
                    "the text looked for has " + Count.number(text.length()) + " characters; allowed are at most "
                            + LONGEST_TEXT,
                    "shorten it");
        }
        if (offset < 0 || limit < 1 || limit > MOST_ROWS) {
            throw Kind.ASKED_WRONG.problem(
                    "the list cannot be made",
                    "rows from " + offset + ", " + limit + " of them",
                    "ask for rows from 0 on, 1 to " + MOST_ROWS + " of them");
        }
    }

    /** Every drive, by label. */
    public static BoardQuery all(@Nullable Session session) {
        return new BoardQuery(session, Set.of(), "", false, Sort.LABEL, false, 0, MOST_ROWS);
    }

    /** What can be taken tonight for a session: no conflict of tags; trusted first, then cleared. */
    public static BoardQuery tonight(Session session) {
        return all(session).ready().by(Sort.READINESS, false);
    }

    /** Only what can be taken: trusted or cleared, and no conflict of tags. */
    public BoardQuery ready() {
        return new BoardQuery(session, TONIGHT, text, true, sort, descending, offset, limit);
    }

    /** Only these standings. */
    public BoardQuery only(Set<Standing> wanted) {
        return new BoardQuery(session, wanted, text, unsettled, sort, descending, offset, limit);
    }

    /** Only drives with this text. */
    public BoardQuery with(String wanted) {
        return new BoardQuery(session, standings, wanted, unsettled, sort, descending, offset, limit);
    }

    /** In this order. */
    public BoardQuery by(Sort order, boolean turned) {
        return new BoardQuery(session, standings, text, unsettled, order, turned, offset, limit);
    }

    /** Only these rows. */
    public BoardQuery page(int from, int most) {
        return new BoardQuery(session, standings, text, unsettled, sort, descending, from, most);
    }
}

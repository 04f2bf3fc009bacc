package tracksoak.report.roster.web.page;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tracksoak.profiles.Session;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.web.page.QueryParameters.Order;
import tracksoak.report.roster.web.page.view.DriveRow;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Head;
import tracksoak.report.roster.web.page.view.Pager;
import tracksoak.report.roster.web.page.view.TablePage;
import tracksoak.report.roster.web.page.view.TonightPage;
import tracksoak.report.roster.web.server.Exchange;

/** The table of drives, and what can be taken tonight. Any thread. */
final class Tables {

    private static final int MOST_TONIGHT = 500;

    private final Roster roster;

    Tables(Roster roster) {
        this.roster = roster;
    }

    TablePage table(QueryParameters query, SessionChoices sessions, Frame frame) {
        Board board = roster.board(query.board());
        return new TablePage(
                frame,
                Shown.of(query.text()),
                sessions.options(query.sessionCode(), "last run's"),
                query.standings(),
                query.orders(),
                List.of(
                        head("Tag", query, Order.TAG, Order.TAG_DOWN),
                        head("Standing", query, Order.STANDING, Order.STANDING_DOWN),
                        head("Drive", query, Order.MODEL, Order.MODEL_DOWN),
                        head("Last run", query, Order.RUN_DOWN, Order.RUN)),
                rows(board.rows()),
                ready(board, roster.board(query.board().ready().page(0, 1)).found(), query),
                count(board),
                pager(query, board),
                query.at(0).href("/labels"),
                query.at(0).href("/drives.csv"));
    }

    TonightPage tonight(Exchange exchange, SessionChoices sessions, Frame frame) {
        Optional<SessionChoices.Known> chosen = sessions.chosen(exchange.parameter("session"));
        if (chosen.isEmpty()) {
            return new TonightPage(
                    frame,
                    sessions.options("", "choose one"),
                    Shown.of(""),
                    Shown.whole("Choose what will be recorded, and see which drives can be taken for it."),
                    List.of(),
                    List.of(),
                    "",
                    "");
        }
        Session session = chosen.get().session();
        BoardQuery tonight = BoardQuery.tonight(session);
        Board take = roster.board(tonight.page(0, MOST_TONIGHT));
        Board test = roster.board(tonight.only(Set.of(Standing.DUE)).page(0, MOST_TONIGHT));
        String code = chosen.get().code();
        String label = chosen.get().label();
        return new TonightPage(
                frame,
                sessions.options(code, "choose one"),
                Shown.whole(label),
                Shown.whole(answer(take, chosen.get())),
                rows(take.rows()),
                rows(test.rows()),
                test.found() == 0
                        ? ""
                        : (test.found() == 1 ? "One drive was" : test.found() + " drives were")
                                + " proven for it, too long ago.",
                take.found() == 0 ? "" : "/labels?session=" + code + "&standing=ready&sort=ready");
    }

    private static String answer(Board take, SessionChoices.Known session) {
        String what = session.label() + (session.alone() ? " (" + Carried.of(session.session()) + ")" : "");
        int waiting = take.unsettled();
        String wait = waiting == 0
                ? ""
                : (waiting == 1 ? " One drive is" : " " + waiting + " drives are")
                        + " trusted or cleared for it, but not offered until the tag is settled.";
        return switch (take.found()) {
            case 0 ->
                waiting > 0
                        ? "No drive can be taken for " + what + " yet." + wait
                        : "No drive is trusted or cleared for " + what + " today: run a sound-check on one.";
            case 1 -> "One drive can be taken for " + what + "." + wait;
            default ->
                take.found() + " drives can be taken for " + what + ", the trusted first, then the cleared." + wait;
        };
    }

    private static List<DriveRow> rows(List<BoardRow> rows) {
        return rows.stream().map(Rows::of).toList();
    }

    private static Head head(String text, QueryParameters query, Order up, Order down) {
        String sorted = query.order().sort != up.sort ? "" : query.order().descending ? "descending" : "ascending";
        return new Head(text, query.by(query.order() == up ? down : up).href("/"), sorted);
    }

    /** {@code 7 can go tonight, each for its last session.} Those whose tag is to be settled are not among them. */
    private static String ready(Board board, int ready, QueryParameters query) {
        int all = board.counts().values().stream().mapToInt(Integer::intValue).sum();
        if (all == 0) {
            return "";
        }
        SessionChoices.Known asked = query.session();
        return (ready == 0 ? "None" : String.valueOf(ready))
                + " can go tonight"
                + (asked != null
                        ? " for " + asked.label() + "."
                        : ready == 0 ? "." : ready == 1 ? ", for its last session." : ", each for its last session.");
    }

    /** {@code 12 drives: 7 trusted, 3 due, 2 failed.} */
    private static String count(Board board) {
        Map<Standing, Integer> counts = new EnumMap<>(Standing.class);
        counts.putAll(board.counts());
        String parts = Stream.of(Standing.values())
                .filter(one -> counts.getOrDefault(one, 0) > 0)
                .map(one -> counts.get(one) + " " + one.word())
                .collect(Collectors.joining(", "));
        int all = counts.values().stream().mapToInt(Integer::intValue).sum();
        String found = switch (board.found()) {
            case 0 -> "No drive fits";
            case 1 -> "1 drive";
            default -> board.found() + " drives";
        };
        if (all == 0) {
            return board.held() == 0
                    ? "This roster holds no drive yet; every qualify enters its record by itself."
                    : found + ".";
        }
        return board.found() == all ? found + ": " + parts + "." : found + "; of all: " + parts + ".";
    }

    private static Pager pager(QueryParameters query, Board board) {
        int from = query.from();
        int to = from + board.rows().size();
        return new Pager(
                board.found() <= QueryParameters.ROWS && from == 0
                        ? ""
                        : board.rows().isEmpty()
                                ? "no drives here"
                                : "drives " + (from + 1) + " to " + to + " of " + board.found(),
                from == 0
                        ? ""
                        : query.at(Math.max(0, from - QueryParameters.ROWS)).href("/"),
                to >= board.found() ? "" : query.at(to).href("/"));
    }
}

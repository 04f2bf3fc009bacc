package tracksoak.report.roster.web.page;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.BoardQuery.Sort;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.web.page.view.Option;
import tracksoak.report.roster.web.server.Exchange;
import tracksoak.report.roster.web.server.Refusal;

/**
 * What a visitor asks of the table, as it stands in the address. Made only of what was checked: text of bounded length, a session
 * of the list, words of fixed lists, a whole number.
 *
 * @param session the session chosen, null for none
 * @param standing a word of {@link #STANDINGS}, empty for all
 * @param order a word of {@link Order}
 * @param from number of the first row, from 0
 */
record QueryParameters(String text, SessionChoices.@Nullable Known session, String standing, Order order, int from) {

    static final int ROWS = 50;

    /** What can be asked for, in words; the first is all that can be taken. */
    private static final Map<String, Set<Standing>> STANDINGS = words();

    private static final int MOST_ROWS = 1_000_000;

    /** Orders of the table, each with its direction. */
    enum Order {
        TAG("tag", "by tag", Sort.LABEL, false),
        TAG_DOWN("tag-down", "by tag, last first", Sort.LABEL, true),
        STANDING("standing", "by standing", Sort.STANDING, false),
        READINESS("ready", "by what can be taken first", Sort.READINESS, false),
        STANDING_DOWN("standing-down", "by standing, worst first", Sort.STANDING, true),
        UNTIL("until", "by day it must be tested again", Sort.VALID_UNTIL, false),
        RUN("run", "by last run, oldest first", Sort.LAST_RUN, false),
        RUN_DOWN("run-down", "by last run, newest first", Sort.LAST_RUN, true),
        MODEL("model", "by maker and model", Sort.MODEL, false),
        MODEL_DOWN("model-down", "by maker and model, last first", Sort.MODEL, true);

        final String word;
        final String label;
        final Sort sort;
        final boolean descending;

        Order(String word, String label, Sort sort, boolean descending) {
            this.word = word;
            this.label = label;
            this.sort = sort;
            this.descending = descending;
        }
    }

    /** @throws Refusal if a part of the address is none of what it may be */
    static QueryParameters of(Exchange exchange, SessionChoices sessions) {
        String text = exchange.parameter("q");
        if (text.length() > BoardQuery.LONGEST_TEXT) {
            throw Exchange.bad("q", "longer than " + BoardQuery.LONGEST_TEXT + " characters");
        }
        return new QueryParameters(
                text,
                sessions.chosen(exchange.parameter("session")).orElse(null),
                standing(exchange.parameter("standing")),
                order(exchange.parameter("sort")),
                exchange.whole("from", 0, 0, MOST_ROWS));
    }

    private static String standing(String word) {
        if (!word.isEmpty() && !STANDINGS.containsKey(word)) {
            throw Exchange.bad("standing", "it must be " + String.join(", ", STANDINGS.keySet()));
        }
        return word;
    }

    private static Map<String, Set<Standing>> words() {
        Map<String, Set<Standing>> words = new LinkedHashMap<>();
        words.put("ready", BoardQuery.TONIGHT);
        for (Standing one : Standing.values()) {
            words.put(one.word(), Set.of(one));
        }
        return words;
    }

    private static Order order(String word) {
        return word.isEmpty()
                ? Order.TAG
                : Stream.of(Order.values())
                        .filter(one -> one.word.equals(word))
                        .findFirst()
                        .orElseThrow(() -> Exchange.bad("sort", "there is no such order"));
    }

    BoardQuery board() {
        Session chosen = session == null ? null : session.session();
        return BoardQuery.all(chosen)
                .with(text)
                .only(STANDINGS.getOrDefault(standing, Set.of()))
                .by(order.sort, order.descending)
                .page(from, ROWS);
    }

    QueryParameters by(Order other) {
        return new QueryParameters(text, session, standing, other, 0);
    }

    QueryParameters at(int row) {
        return new QueryParameters(text, session, standing, order, row);
    }

    /** The address of this on a page. */
    String href(String path) {
        Map<String, String> parts = parts();
        if (from > 0) {
            parts.put("from", Integer.toString(from));
        }
        return path
                + (parts.isEmpty() ? "" : "?")
                + parts.entrySet().stream()
                        .map(part -> part.getKey() + "=" + URLEncoder.encode(part.getValue(), StandardCharsets.UTF_8))
                        .collect(Collectors.joining("&"));
    }

    /** What a form on another page must keep. */
    List<Option> kept() {
        return parts().entrySet().stream()
                .map(part -> new Option(part.getKey(), Shown.of(part.getValue()), false))
                .toList();
    }

    private Map<String, String> parts() {
        Map<String, String> parts = new LinkedHashMap<>();
        if (!text.isEmpty()) {
            parts.put("q", text);
        }
        if (session != null) {
            parts.put("session", session.code());
        }
        if (!standing.isEmpty()) {
            parts.put("standing", standing);
        }
        if (order != Order.TAG) {
            parts.put("sort", order.word);
        }
        return parts;
    }

    List<Option> standings() {
        return Stream.concat(
                        Stream.of(new Option("", Shown.of("any standing"), standing.isEmpty())),
                        STANDINGS.keySet().stream()
                                .map(one -> new Option(
                                        one,
                                        Shown.of(one.equals("ready") ? "can be taken" : one),
                                        one.equals(standing))))
                .toList();
    }

    List<Option> orders() {
        return Stream.of(Order.values())
                .map(one -> new Option(one.word, Shown.of(one.label), one == order))
                .toList();
    }

    String sessionCode() {
        return session == null ? "" : session.code();
    }
}

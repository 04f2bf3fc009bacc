package tracksoak.report.roster.web.page;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tracksoak.profiles.Session;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.standing.RecordedSession;
import tracksoak.report.roster.web.page.view.Option;
import tracksoak.report.roster.web.server.Exchange;
import tracksoak.report.roster.web.server.Refusal;

/**
 * The sessions a visitor can ask about: those records were made for, and those this computer knows. Two that share a name but
 * not their terms are told apart. Immutable.
 */
final class SessionChoices {

    /**
     * One of them.
     *
     * @param code names it in addresses
     * @param label names it to people
     * @param alone whether no other has its name
     */
    record Known(String code, String label, boolean alone, Session session) {}

    private final Map<String, Known> byCode = new LinkedHashMap<>();

    /** @param all of the same name and terms, the first counts */
    SessionChoices(List<Session> all) {
        Map<String, Session> byTerms = new LinkedHashMap<>();
        for (Session session : all) {
            byTerms.putIfAbsent(session.name() + "~" + RecordedSession.terms(session), session);
        }
        Map<String, Integer> names = new HashMap<>();
        byTerms.values().forEach(session -> names.merge(session.name(), 1, Integer::sum));
        List<Known> known = new ArrayList<>();
        byTerms.forEach((full, session) -> {
            boolean alone = names.getOrDefault(session.name(), 1) == 1;
            known.add(new Known(
                    alone ? session.name() : full,
                    session.name()
                            + (alone
                                    ? ""
                                    : " (" + Carried.of(session) + ", " + full.substring(full.length() - 6) + ")"),
                    alone,
                    session));
        });
        known.sort(Comparator.comparing(Known::code));
        known.forEach(one -> byCode.put(one.code(), one));
    }

    List<Known> all() {
        return List.copyOf(byCode.values());
    }

    /**
     * The one a visitor chose.
     *
     * @return empty where none was chosen
     * @throws Refusal if there is none of that name
     */
    Optional<Known> chosen(String code) {
        if (code.isEmpty()) {
            return Optional.empty();
        }
        Known known = byCode.get(code);
        if (known == null) {
            throw Exchange.bad("session", "this roster knows none of that name");
        }
        return Optional.of(known);
    }

    /** A list to choose from, with one entry for none. */
    List<Option> options(String chosen, String none) {
        List<Option> options = new ArrayList<>();
        options.add(new Option("", Shown.of(none), chosen.isEmpty()));
        byCode.values()
                .forEach(known -> options.add(new Option(
                        known.code(), Shown.of(known.label()), known.code().equals(chosen))));
        return options;
    }
}

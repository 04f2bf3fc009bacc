package tracksoak.profiles;

import java.util.List;

/** Puts overriding values into a session and has the rules for files check the result. Confined to one thread. */
final class OverrideDraft {
    private static final String OPTION = "option";

    private final SessionDraft draft;
    private final ErrorCollector problems;

    OverrideDraft(Session session) {
        draft = SessionDraft.of(session);
        problems = new ErrorCollector("session " + session.name(), 0);
    }

    /** Puts a value in its place; what every group of tracks has, in every group. */
    void set(Key key, Object value) {
        if (key == Key.COUNT) {
            setTracks(value);
        } else if (key.isOfGroup()) {
            for (List<SessionDraft.Group> groups : List.of(draft.groups, draft.mix)) {
                groups.forEach(group -> set(group, key, value));
            }
        } else {
            place(key.path(), value);
            draft.set(key, value);
            if (key == Key.BUFFER) {
                draft.set(Key.BUFFER_ASSUMED, false);
            }
        }
    }

    Session check() {
        return SessionRules.check(draft, problems);
    }

    private void setTracks(Object tracks) {
        SessionDraft.Group first = draft.groups.get(0);
        set(first, Key.COUNT, tracks);
        if (draft.groups.size() > 1) {
            problems.add(
                    first.path(Key.COUNT),
                    tracks,
                    "cannot say which of the session's " + draft.groups.size() + " groups of tracks it is for",
                    "a session with one group of tracks",
                    "write a session file of your own with the counts you need");
        }
    }

    private void set(SessionDraft.Group group, Key key, Object value) {
        place(group.path(key), value);
        group.set(key, value);
    }

    private void place(String path, Object value) {
        String shown = value instanceof Enum<?> word ? ProfileWords.of(word) : value.toString();
        problems.place(path, new ErrorCollector.Place(OPTION, 0, 0, shown));
    }

    static Session named(Session session, String name, String title, String about) {
        return SessionRules.check(
                SessionDraft.of(
                        session.but().name(name).title(title).about(about).build()),
                new ErrorCollector("session " + name, 0));
    }
}

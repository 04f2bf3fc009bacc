package tracksoak.profiles;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Quantity;

/**
 * Values given for one run in place of the profile's, by their keys; the others stay as the profile says. They pass the
 * same checks as a file. A buffer given here is vouched for, so it is no assumption any more; the number of tracks is for
 * sessions with one group of tracks; sample rate and word length are those of every track, those of a mix too. Immutable.
 */
public final class SessionOverrides {

    /** Added to the name of a changed session, so that a PASS for it is never taken for one for the original. */
    public static final String CHANGED = "-changed";

    private static final SessionOverrides NONE = new SessionOverrides(new EnumMap<>(Key.class));

    private final Map<Key, Object> values;

    private SessionOverrides(Map<Key, Object> values) {
        this.values = values;
    }

    /** No value differs. */
    public static SessionOverrides none() {
        return NONE;
    }

    /**
     * These values and one more.
     *
     * @param key one with an {@linkplain Key#option() option}
     * @param value as the session has it: a number in the key's unit, a word, names; null for what the profile says
     * @throws IllegalArgumentException if the key has no option or the value is of another kind
     */
    public SessionOverrides with(Key key, @Nullable Object value) {
        if (key.option().isEmpty()) {
            throw new IllegalArgumentException(key.path() + " cannot be given for one run");
        }
        EnumMap<Key, Object> more = new EnumMap<>(values);
        if (value == null) {
            more.remove(key);
        } else {
            more.put(key, key.form().take(value));
        }
        return new SessionOverrides(more);
    }

    /** Whether a value is given for this key. */
    public boolean has(Key key) {
        return values.containsKey(key);
    }

    /**
     * The session with these values. Where one differs, its name ends in {@link #CHANGED}, its title says what it is now, and its
     * text what differs.
     *
     * @throws ProfileException with everything that is wrong; an error in a value given here stands under {@code option}
     */
    public Session applyTo(Session session) {
        if (values.isEmpty()) {
            // a session out of a record may be one that no file could hold
            return session;
        }
        OverrideDraft draft = new OverrideDraft(session);
        values.forEach(draft::set);
        Session changed = draft.check();
        List<String> changes = changes(session, changed);
        return changes.isEmpty() ? session : renamed(changed, session, changes);
    }

    private static List<String> changes(Session before, Session after) {
        List<String> changes = new ArrayList<>();
        add(changes, "tracks", tracks(before), tracks(after));
        for (Key key : Key.ofSession()) {
            if (key.option().isPresent() && !key.isMargin()) {
                add(changes, key.label(), shown(key, before), shown(key, after));
            }
        }
        add(changes, "margins", margins(before), margins(after));
        return changes;
    }

    private static void add(List<String> changes, String what, String before, String after) {
        if (!before.equals(after)) {
            changes.add(what + " " + after + " instead of " + before);
        }
    }

    private static String tracks(Session session) {
        List<String> groups = new ArrayList<>();
        for (List<TrackGroup> some : List.of(session.groups(), session.mix())) {
            for (TrackGroup group : some) {
                groups.add(group.tracks() + " at " + group.sampleRateHz() + " Hz "
                        + group.format().words());
            }
        }
        return String.join(" + ", groups);
    }

    private static String shown(Key key, Session session) {
        return key.shown(session) + (key == Key.BUFFER && session.bufferAssumed() ? " (assumed)" : "");
    }

    private static String margins(Session session) {
        return Key.ofSession().stream()
                .filter(Key::isMargin)
                .map(key -> key.label() + " " + key.shown(session))
                .collect(Collectors.joining(", "));
    }

    private static Session renamed(Session changed, Session from, List<String> changes) {
        String stem = from.name().endsWith(CHANGED)
                ? from.name().substring(0, from.name().length() - CHANGED.length())
                : from.name();
        String name = stem.substring(0, Math.min(stem.length(), 40)).replaceAll("-$", "") + CHANGED;
        String about = "Changed from " + from.name() + ": " + String.join("; ", changes) + ". " + from.about();
        return OverrideDraft.named(
                changed,
                name,
                Inert.escaped(title(changed) + " (" + stem + " changed)", SessionRules.TITLE_MAX_CHARS),
                Inert.escaped(about.strip(), 800));
    }

    /** What it is now: the title it had would speak of what it was. */
    private static String title(Session session) {
        List<String> groups = new ArrayList<>();
        for (TrackGroup group : session.groups()) {
            groups.add(group.tracks() + (group.tracks() == 1 ? " track at " : " tracks at ")
                    + Quantity.plain(group.sampleRateHz() / 1000.0) + " kHz "
                    + group.format().words());
        }
        return String.join(" and ", groups) + ", " + Quantity.exactSeconds(session.lengthS());
    }
}

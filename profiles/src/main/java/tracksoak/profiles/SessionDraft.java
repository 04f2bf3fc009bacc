package tracksoak.profiles;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A session on its way in: every value may still be missing or out of range. Confined to one thread. */
final class SessionDraft {

    final List<Group> groups = new ArrayList<>();
    final List<Group> mix = new ArrayList<>();
    private final Map<Key, Object> values = new EnumMap<>(Key.class);

    /** Tracks of one rate and word length, and where in the profile they stand. */
    static final class Group {
        final String path;
        private final Map<Key, Object> values = new EnumMap<>(Key.class);

        Group(String path) {
            this.path = path;
        }

        String path(Key key) {
            return path + "." + key.toml();
        }

        void set(Key key, @Nullable Object value) {
            SessionDraft.set(values, key, value);
        }

        @Nullable
        Object get(Key key) {
            return values.get(key);
        }

        TrackGroup toTrackGroup() {
            return new TrackGroup(
                    known(Form.WHOLE, Key.COUNT).intValue(),
                    known(Form.HERTZ, Key.SAMPLE_RATE).intValue(),
                    known(Form.word(SampleFormat.class), Key.WORD_LENGTH));
        }

        private <T> T known(Form<T> form, Key key) {
            return form.take(SessionDraft.known(values.get(key)));
        }
    }

    static SessionDraft of(Session session) {
        SessionDraft draft = new SessionDraft();
        for (Key key : Key.ofSession()) {
            draft.set(key, key.of(session));
        }
        addGroups(session.groups(), Key.TRACKS, draft.groups);
        addGroups(session.mix(), Key.MIX, draft.mix);
        return draft;
    }

    private static void addGroups(List<TrackGroup> from, Key key, List<Group> to) {
        for (TrackGroup trackGroup : from) {
            Group group = new Group(key.toml() + "[" + to.size() + "]");
            group.set(Key.COUNT, trackGroup.tracks());
            group.set(Key.SAMPLE_RATE, trackGroup.sampleRateHz());
            group.set(Key.WORD_LENGTH, trackGroup.format());
            to.add(group);
        }
    }

    /** Puts a value under its key; null takes it out. */
    void set(Key key, @Nullable Object value) {
        set(values, key, value);
    }

    private static void set(Map<Key, Object> values, Key key, @Nullable Object value) {
        if (value == null) {
            values.remove(key);
        } else {
            values.put(key, key.form().take(value));
        }
    }

    /** What stands under a key, null where nothing does. */
    @Nullable
    Object get(Key key) {
        return values.get(key);
    }

    /** The same where it must be of one kind. */
    <T> @Nullable T get(Key key, Class<T> type) {
        Object value = values.get(key);
        return value == null ? null : type.cast(value);
    }

    /** The names under a key of several; none where nothing stands there. */
    List<String> texts(Key key) {
        Object value = values.get(key);
        return value == null ? List.of() : Form.TEXTS.take(value);
    }

    /** The session, once the rules have found nothing wrong. */
    Session toSession() {
        Session.Builder session = Session.builder()
                .groups(groups.stream().map(Group::toTrackGroup).toList())
                .mix(mix.stream().map(Group::toTrackGroup).toList());
        for (Key key : Key.ofSession()) {
            key.put(session, known(values.get(key)));
        }
        return session.build();
    }

    private static Object known(@Nullable Object value) {
        if (value == null) {
            throw new IllegalStateException("a session was made before its profile was checked");
        }
        return value;
    }
}

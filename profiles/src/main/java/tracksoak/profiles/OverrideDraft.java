package tracksoak.profiles;

import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Puts overriding values into a session and has the rules for files check the result. Confined to one thread. */
final class OverrideDraft {
    private static final String OPTION = "option";

    private final Draft draft;
    private final Problems problems;

    OverrideDraft(Session session) {
        draft = Draft.of(session);
        problems = new Problems("session " + session.name(), 0);
    }

    void apply(SessionOverrides given) {
        setTracks(given.tracks());
        for (List<Draft.Group> groups : List.of(draft.groups, draft.mix)) {
            for (Draft.Group group : groups) {
                Integer rate = given.sampleRateHz();
                set(group.path(Key.SAMPLE_RATE), rate, v -> group.sampleRateHz = v.longValue());
                set(group.path(Key.WORD_LENGTH), given.format(), v -> group.format = v);
            }
        }
        set(Key.LENGTH, given.lengthS(), v -> draft.lengthS = v);
        set(Key.LAYOUT, given.layout(), v -> draft.layout = v);
        set(Key.CHUNK, given.chunkBytes(), v -> draft.chunkBytes = v);
        set(Key.ARRIVAL, given.arrival(), v -> draft.arrival = v);
        set(Key.WRITERS, given.writers(), v -> draft.writers = v.longValue());
        set(Key.FLUSH, given.flushS(), v -> draft.flushS = v);
        set(Key.BUFFER, given.bufferS(), v -> {
            draft.bufferS = v;
            draft.bufferAssumed = false;
        });
        set(Key.FILE_LIMIT, given.fileLimitBytes(), v -> draft.fileLimitBytes = v);
        set(Key.FILE_SYSTEMS, given.fileSystems(), v -> draft.fileSystems = v);
        set(Key.STALL_LIMIT, given.stallLimitMs(), v -> draft.stallLimitMs = v);
        set(Key.MARGIN_BUFFER, given.marginBuffer(), v -> draft.marginBuffer = v);
        set(Key.MARGIN_RATE, given.marginRate(), v -> draft.marginRate = v);
        set(Key.MARGIN_PORT, given.marginPort(), v -> draft.marginPort = v);
        set(Key.MARGIN_PLAYBACK, given.marginPlayback(), v -> draft.marginPlayback = v);
        set(Key.LONGEST_STALL, given.longestStallMs(), v -> draft.longestStallMs = v);
        set(Key.CLOSE, given.closeMs(), v -> draft.closeMs = v);
    }

    Session check() {
        return SessionRules.check(draft, problems);
    }

    private void setTracks(@Nullable Integer tracks) {
        if (tracks == null) {
            return;
        }
        Draft.Group first = draft.groups.get(0);
        set(first.path(Key.COUNT), tracks, v -> first.count = v.longValue());
        if (draft.groups.size() > 1) {
            problems.add(
                    first.path(Key.COUNT),
                    tracks,
                    "cannot say which of the session's " + draft.groups.size() + " groups of tracks it is for",
                    "a session with one group of tracks",
                    "write a session file of your own with the counts you need");
        }
    }

    private <T> void set(Key key, @Nullable T value, Consumer<T> setter) {
        set(key.path(), value, setter);
    }

    private <T> void set(String path, @Nullable T value, Consumer<T> setter) {
        if (value != null) {
            problems.place(path, new Problems.Place(OPTION, 0, 0, shown(value)));
            setter.accept(value);
        }
    }

    private static String shown(Object value) {
        return value instanceof Enum<?> word ? Words.of(word) : value.toString();
    }

    static Session named(Session session, String name, String title, String about) {
        Draft renamed = Draft.of(session);
        renamed.name = name;
        renamed.title = title;
        renamed.about = about;
        return SessionRules.check(renamed, new Problems("session " + name, 0));
    }
}

package tracksoak.profiles;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;

/** The range of every single value. What two values must not say together stands in {@link SessionContradictions}. */
final class SessionRules {
    private static final Pattern NAME = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");
    private static final int NAME_MAX_CHARS = 48;
    static final int TITLE_MAX_CHARS = 120;
    private static final int ABOUT_MAX_CHARS = 800;

    private final SessionDraft draft;
    private final ErrorCollector problems;

    private SessionRules(SessionDraft draft, ErrorCollector problems) {
        this.draft = draft;
        this.problems = problems;
    }

    /** Checks everything and gives the session, or throws all that is wrong. */
    static Session check(SessionDraft draft, ErrorCollector problems) {
        new SessionRules(draft, problems).checkAll();
        if (!problems.isPartOnly()) {
            SessionContradictions.check(draft, problems);
        }
        problems.throwIfAny();
        return draft.toSession();
    }

    private void checkAll() {
        checkName(draft.get(Key.NAME, String.class));
        checkLine(Key.TITLE, draft.get(Key.TITLE, String.class), 1, TITLE_MAX_CHARS);
        checkLine(Key.ABOUT, draft.get(Key.ABOUT, String.class), 0, ABOUT_MAX_CHARS);
        checkGroups(Key.TRACKS, draft.groups);
        checkGroups(Key.MIX, draft.mix);
        for (Key key : Key.ofSession()) {
            if (draft.get(key) instanceof Number number) {
                checkNumber(key, key.path(), number);
            }
            if (key == Key.CHUNK) {
                checkChunk(draft.get(Key.CHUNK, Long.class));
            } else if (key == Key.FILE_SYSTEMS) {
                checkFileSystems(draft.texts(Key.FILE_SYSTEMS));
            }
        }
    }

    private void checkChunk(@Nullable Long bytes) {
        if (bytes != null && problems.isSound(Key.CHUNK.path()) && bytes % Key.CHUNK_MIN_BYTES != 0) {
            refuse(Key.CHUNK, bytes, "is no multiple of 4 KiB, the block that carries a stamp");
        }
    }

    private void checkName(@Nullable String name) {
        if (name != null
                && (name.length() > NAME_MAX_CHARS || !NAME.matcher(name).matches())) {
            refuse(Key.NAME, name, "cannot be typed as a name");
        }
    }

    private void checkLine(Key key, @Nullable String text, int minChars, int maxChars) {
        if (text == null) {
            return;
        }
        if (text.codePoints().anyMatch(Inert::mustBeEscaped)) {
            refuse(key, text, "holds a line break or a character that cannot be shown");
        } else if (text.strip().length() < minChars) {
            refuse(key, text, "is empty");
        } else if (text.length() > maxChars) {
            refuse(key, text, "is " + text.length() + " characters long");
        }
    }

    private void checkGroups(Key key, List<SessionDraft.Group> groups) {
        if (groups.size() > Key.GROUPS_MAX || (key == Key.TRACKS && groups.isEmpty() && problems.isSound(key.path()))) {
            refuse(key, groups.size(), "has " + groups.size() + " groups");
            return;
        }
        for (SessionDraft.Group group : groups) {
            for (Key each : Key.OF_GROUP) {
                if (group.get(each) instanceof Number number) {
                    checkNumber(each, group.path(each), number);
                }
            }
        }
    }

    private void checkFileSystems(List<String> names) {
        if (draft.get(Key.FILE_SYSTEMS) == null) {
            return;
        }
        if (names.isEmpty() || names.size() > ProfileWords.FILE_SYSTEMS.size()) {
            refuse(Key.FILE_SYSTEMS, names.size(), "names " + names.size() + " file systems");
            return;
        }
        for (String name : names) {
            if (!ProfileWords.FILE_SYSTEMS.contains(name)) {
                String meant = Closest.to(name, ProfileWords.FILE_SYSTEMS)
                        .map(m -> "; did you mean \"" + m + "\"?")
                        .orElse("");
                problems.add(
                        Key.FILE_SYSTEMS.path(),
                        names,
                        "names \"" + Inert.escaped(name, 40) + "\", which is none of the file systems known" + meant,
                        String.join(", ", ProfileWords.FILE_SYSTEMS),
                        "write the names your recorder accepts");
            }
        }
        if (names.stream().distinct().count() != names.size()) {
            refuse(Key.FILE_SYSTEMS, names, "names a file system twice");
        }
    }

    private void checkNumber(Key key, String path, Number value) {
        Optional<String> wrong = key.outOfRange(value.doubleValue());
        if (wrong.isPresent()) {
            problems.add(path, value, wrong.get(), key.allowed(), "write for example " + key.example());
        }
    }

    private void refuse(Key key, Object value, String problem) {
        problems.add(key.path(), value, problem, key.allowed(), "write for example " + key.example());
    }
}

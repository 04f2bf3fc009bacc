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

    private final Draft draft;
    private final Problems problems;

    private SessionRules(Draft draft, Problems problems) {
        this.draft = draft;
        this.problems = problems;
    }

    /** Checks everything and gives the session, or throws all that is wrong. */
    static Session check(Draft draft, Problems problems) {
        new SessionRules(draft, problems).checkAll();
        if (!problems.isPartOnly()) {
            SessionContradictions.check(draft, problems);
        }
        problems.throwIfAny();
        return draft.toSession();
    }

    private void checkAll() {
        checkName();
        checkLine(Key.TITLE, draft.title, 1, TITLE_MAX_CHARS);
        checkLine(Key.ABOUT, draft.about, 0, ABOUT_MAX_CHARS);
        checkGroups(Key.TRACKS, draft.groups);
        checkGroups(Key.MIX, draft.mix);
        checkBetween(Key.LENGTH, draft.lengthS, 1, Key.LENGTH_MAX_S);
        checkBetween(Key.CHUNK, draft.chunkBytes, Key.CHUNK_MIN_BYTES, Key.CHUNK_MAX_BYTES);
        if (draft.chunkBytes != null
                && problems.isSound(Key.CHUNK.path())
                && draft.chunkBytes % Key.CHUNK_MIN_BYTES != 0) {
            refuse(Key.CHUNK, draft.chunkBytes, "is no multiple of 4 KiB, the block that carries a stamp");
        }
        checkBetween(Key.FILE_LIMIT, draft.fileLimitBytes, Key.FILE_LIMIT_MIN_BYTES, Key.FILE_LIMIT_MAX_BYTES);
        checkNumber(Key.WRITERS, draft.writers);
        checkNumber(Key.FLUSH, draft.flushS);
        checkNumber(Key.BUFFER, draft.bufferS);
        checkNumber(Key.STALL_LIMIT, draft.stallLimitMs);
        checkNumber(Key.VALID_DAYS, draft.validDays);
        checkFileSystems();
        checkNumber(Key.MARGIN_BUFFER, draft.marginBuffer);
        checkNumber(Key.MARGIN_RATE, draft.marginRate);
        checkNumber(Key.MARGIN_PORT, draft.marginPort);
        checkNumber(Key.MARGIN_PLAYBACK, draft.marginPlayback);
        checkNumber(Key.LONGEST_STALL, draft.longestStallMs);
        checkNumber(Key.CLOSE, draft.closeMs);
    }

    private void checkName() {
        String name = draft.name;
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

    private void checkGroups(Key key, List<Draft.Group> groups) {
        if (groups.size() > Key.GROUPS_MAX || (key == Key.TRACKS && groups.isEmpty() && problems.isSound(key.path()))) {
            refuse(key, groups.size(), "has " + groups.size() + " groups");
            return;
        }
        for (Draft.Group group : groups) {
            checkNumber(Key.COUNT, group.path(Key.COUNT), group.count);
            checkNumber(Key.SAMPLE_RATE, group.path(Key.SAMPLE_RATE), group.sampleRateHz);
        }
    }

    private void checkFileSystems() {
        List<String> names = draft.fileSystems;
        if (names == null) {
            return;
        }
        if (names.isEmpty() || names.size() > Words.FILE_SYSTEMS.size()) {
            refuse(Key.FILE_SYSTEMS, names.size(), "names " + names.size() + " file systems");
            return;
        }
        for (String name : names) {
            if (!Words.FILE_SYSTEMS.contains(name)) {
                String meant = Closest.to(name, Words.FILE_SYSTEMS)
                        .map(m -> "; did you mean \"" + m + "\"?")
                        .orElse("");
                problems.add(
                        Key.FILE_SYSTEMS.path(),
                        names,
                        "names \"" + Inert.escaped(name, 40) + "\", which is none of the file systems known" + meant,
                        String.join(", ", Words.FILE_SYSTEMS),
                        "write the names your recorder accepts");
            }
        }
        if (names.stream().distinct().count() != names.size()) {
            refuse(Key.FILE_SYSTEMS, names, "names a file system twice");
        }
    }

    private void checkBetween(Key key, @Nullable Long value, long min, long max) {
        if (value != null && (value < min || value > max)) {
            refuse(key, value, value < min ? "is too small" : "is too large");
        }
    }

    private void checkNumber(Key key, @Nullable Number value) {
        checkNumber(key, key.path(), value);
    }

    private void checkNumber(Key key, String path, @Nullable Number value) {
        Optional<String> wrong = value == null ? Optional.empty() : key.outOfRange(value.doubleValue());
        if (value != null && wrong.isPresent()) {
            problems.add(path, value, wrong.get(), key.allowed(), "write for example " + key.example());
        }
    }

    private void refuse(Key key, Object value, String problem) {
        problems.add(key.path(), value, problem, key.allowed(), "write for example " + key.example());
    }
}

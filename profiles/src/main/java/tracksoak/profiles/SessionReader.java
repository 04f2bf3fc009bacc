package tracksoak.profiles;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

/**
 * Reads session profiles (TOML). A profile comes from outside and may hold anything: whatever it holds, the answer is a
 * checked {@link Session} or a {@link ProfileException} with everything that is wrong. Stateless, so safe in any thread.
 */
public final class SessionReader {
    /** Largest profile read, in bytes; the shipped ones have about 2 KiB. */
    public static final int MAX_FILE_BYTES = TomlFile.MAX_BYTES;

    private static final TomlFile.Kind KIND = new TomlFile.Kind("session profile", "shipped session");

    private static final List<Key> TOP = Arrays.stream(Key.values())
            .filter(k -> !k.isMargin() && !k.isOfGroup())
            .toList();
    private static final List<Key> MARGIN_KEYS =
            Arrays.stream(Key.values()).filter(Key::isMargin).toList();

    private SessionReader() {}

    /**
     * Reads one profile.
     *
     * @param file a regular file of at most {@link #MAX_FILE_BYTES}
     * @throws ProfileException with everything that is wrong, also where the file cannot be read
     */
    public static Session read(Path file) {
        return checked(TomlFile.read(file, KIND));
    }

    /**
     * Reads one profile from its bytes.
     *
     * @param utf8 the file's contents
     * @param label what to call the file in messages
     * @throws ProfileException with everything that is wrong
     */
    public static Session read(byte[] utf8, String label) {
        return checked(TomlFile.read(utf8, label, KIND));
    }

    /**
     * Reads one profile from its text.
     *
     * @param text the file's contents, with or without a byte order mark
     * @param label what to call the file in messages
     * @throws ProfileException with everything that is wrong
     */
    public static Session read(String text, String label) {
        return checked(TomlFile.read(text, label, KIND));
    }

    private static Session checked(TomlFile file) {
        return SessionRules.check(draft(file.top(), file.problems()), file.problems());
    }

    /** The values of a profile out of its tables, minding types only; {@link SessionRules} minds the rest. */
    private static SessionDraft draft(KeyedTable top, ErrorCollector problems) {
        top.refuseAllBut(TOP);
        SessionDraft draft = new SessionDraft();
        take(TOP, top, draft);
        draft.groups.addAll(top.groups(Key.TRACKS));
        if (!top.has(Key.TRACKS)) {
            problems.missing(1, 1, Key.TRACKS.toml(), Key.TRACKS);
        }
        draft.mix.addAll(top.groups(Key.MIX));
        KeyedTable margins = top.table(Key.MARGINS);
        if (margins != null) {
            margins.refuseAllBut(MARGIN_KEYS);
            take(MARGIN_KEYS, margins, draft);
        }
        return draft;
    }

    private static void take(List<Key> keys, KeyedTable table, SessionDraft draft) {
        for (Key key : keys) {
            if (key.isOfSession()) {
                boolean leftOut = key.usual() != null && !table.has(key);
                draft.set(key, leftOut ? key.usual() : key.form().read(table, key));
            }
        }
    }
}

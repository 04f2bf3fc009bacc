package tracksoak.profiles;

import java.nio.file.Path;

/**
 * Reads session profiles (TOML). A profile comes from outside and may hold anything: whatever it holds, the answer is a
 * checked {@link Session} or a {@link ProfileException} with everything that is wrong. Stateless, so safe in any thread.
 */
public final class SessionReader {
    /** Largest profile read, in bytes; the shipped ones have about 2 KiB. */
    public static final int MAX_FILE_BYTES = TomlFile.MAX_BYTES;

    private static final TomlFile.Kind KIND = new TomlFile.Kind("session profile", "shipped session");

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
        return SessionRules.check(TomlDraft.read(file.top(), file.problems()), file.problems());
    }
}

package tracksoak.profiles;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import org.tomlj.Toml;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;

/**
 * Reads session profiles (TOML). A profile comes from outside and may hold anything: whatever it holds, the answer is a
 * checked {@link Session} or a {@link ProfileException} with everything that is wrong. Stateless, so safe in any thread.
 */
public final class SessionReader {
    /** Largest profile read, in bytes; the shipped ones have about 2 KiB. */
    public static final int MAX_FILE_BYTES = 64 << 10;

    private static final int MAX_LINE_CHARS = 4096;
    private static final int MAX_DEPTH = 200;
    private static final int MAX_SYNTAX_ERRORS = 20;

    private SessionReader() {}

    /**
     * Reads one profile.
     *
     * @param file a regular file of at most {@link #MAX_FILE_BYTES}
     * @throws ProfileException with everything that is wrong, also where the file cannot be read
     */
    public static Session read(Path file) {
        String label = file.toString();
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            throw whole(label, "is no regular file", "give the path of a session profile, a text file ending in .toml");
        }
        try (InputStream in = Files.newInputStream(file)) {
            return read(in.readNBytes(MAX_FILE_BYTES + 1), label);
        } catch (NoSuchFileException e) {
            throw whole(label, "does not exist", "check the path");
        } catch (IOException | SecurityException e) {
            throw whole(label, "cannot be read (" + e.getClass().getSimpleName() + ")", "check its permissions");
        }
    }

    /**
     * Reads one profile from its bytes.
     *
     * @param utf8 the file's contents
     * @param label what to call the file in messages
     * @throws ProfileException with everything that is wrong
     */
    public static Session read(byte[] utf8, String label) {
        if (utf8.length > MAX_FILE_BYTES) {
            throw whole(label, "is larger than 64 KiB, so it is no session profile", "give a session profile");
        }
        ByteBuffer bytes = ByteBuffer.wrap(utf8);
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(bytes)
                    .toString();
            return read(text, label);
        } catch (CharacterCodingException e) {
            int line = 1;
            for (int i = 0; i < bytes.position(); i++) {
                line += utf8[i] == '\n' ? 1 : 0;
            }
            String remedy = "save the file as UTF-8 text in your editor";
            throw new ProfileException(
                    List.of(new ProfileError(label, line, 0, "", "", "is not UTF-8 text", "", remedy)));
        }
    }

    /**
     * Reads one profile from its text.
     *
     * @param text the file's contents, with or without a byte order mark
     * @param label what to call the file in messages
     * @throws ProfileException with everything that is wrong
     */
    public static Session read(String text, String label) {
        String toml = text.startsWith("\uFEFF") ? text.substring(1) : text;
        refuseMonsters(toml, label);
        ErrorCollector problems = new ErrorCollector(label, 0);
        TomlParseResult result = parse(toml, label);
        result.errors().stream().limit(MAX_SYNTAX_ERRORS).forEach(error -> addSyntaxError(error, problems));
        if (result.hasErrors()) {
            problems.partOnly();
        }
        return SessionRules.check(TomlDraft.read(result, label, problems), problems);
    }

    private static TomlParseResult parse(String toml, String label) {
        try {
            return Toml.parse(toml);
        } catch (RuntimeException | StackOverflowError e) {
            // The parser is another's code and recurses: a text that defeats it is a bad profile, not a crash of ours.
            throw whole(label, "cannot be read as TOML", "start again from a shipped session");
        }
    }

    /** Turns away text made to keep a parser busy rather than to describe a session. */
    private static void refuseMonsters(String toml, String label) {
        int line = 1;
        int column = 0;
        int depth = 0;
        for (int i = 0; i < toml.length(); i++) {
            char c = toml.charAt(i);
            column++;
            if (c == '\n') {
                line++;
                column = 0;
            }
            depth += c == '[' || c == '{' ? 1 : 0;
            depth -= (c == ']' || c == '}') && depth > 0 ? 1 : 0;
            if (column > MAX_LINE_CHARS || depth > MAX_DEPTH) {
                String problem = column > MAX_LINE_CHARS
                        ? "has a line of more than " + MAX_LINE_CHARS + " characters"
                        : "opens more than " + MAX_DEPTH + " brackets";
                String remedy = "start again from a shipped session";
                throw new ProfileException(List.of(new ProfileError(label, line, column, "", "", problem, "", remedy)));
            }
        }
    }

    private static void addSyntaxError(TomlParseError error, ErrorCollector problems) {
        TomlPosition at = error.position();
        String why = error.getMessage() == null ? "unreadable" : error.getMessage();
        problems.addAt(
                at.line(),
                at.column(),
                "",
                "",
                "is not TOML here: " + why,
                "",
                "mend this line; the shipped sessions show how it is written");
    }

    private static ProfileException whole(String label, String problem, String remedy) {
        return new ProfileException(List.of(new ProfileError(label, 0, 0, "", "", problem, "", remedy)));
    }
}

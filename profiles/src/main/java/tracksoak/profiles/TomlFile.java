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
import org.tomlj.TomlTable;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;

/**
 * A TOML file from outside, which may hold anything: what can be read of it, and a list of what is wrong with it that grows
 * while it is read and is thrown as a whole by {@link #throwIfAny()}. Confined to one thread.
 */
public final class TomlFile {

    /** Largest file read, in bytes. */
    public static final int MAX_BYTES = 64 << 10;

    private static final int MAX_LINE_CHARS = 4096;
    private static final int MAX_DEPTH = 200;
    private static final int MAX_SYNTAX_ERRORS = 20;

    /**
     * What kind of file it is, for the messages.
     *
     * @param noun what it is called: {@code session profile}
     * @param models what of its kind people can start from: {@code shipped session}
     */
    public record Kind(String noun, String models) {}

    private final TomlTable table;
    private final String label;
    private final ErrorCollector problems;

    private TomlFile(TomlTable table, String label, ErrorCollector problems) {
        this.table = table;
        this.label = label;
        this.problems = problems;
    }

    /**
     * Reads a file.
     *
     * @param file a regular file of at most {@link #MAX_BYTES}
     * @throws ProfileException where it cannot be read at all
     */
    public static TomlFile read(Path file, Kind kind) {
        String label = file.toString();
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            throw whole(
                    label, "is no regular file", "give the path of a " + kind.noun() + ", a text file ending in .toml");
        }
        try (InputStream in = Files.newInputStream(file)) {
            return read(in.readNBytes(MAX_BYTES + 1), label, kind);
        } catch (NoSuchFileException e) {
            throw whole(label, "does not exist", "check the path");
        } catch (IOException | SecurityException e) {
            throw whole(label, "cannot be read (" + Inert.whole(Failure.words(e)) + ")", "check its permissions");
        }
    }

    /**
     * Reads a file from its bytes.
     *
     * @param utf8 its contents
     * @param label what to call it in messages
     * @throws ProfileException where it cannot be read at all
     */
    public static TomlFile read(byte[] utf8, String label, Kind kind) {
        if (utf8.length > MAX_BYTES) {
            throw whole(label, "is larger than 64 KiB, so it is no " + kind.noun(), "give a " + kind.noun());
        }
        ByteBuffer bytes = ByteBuffer.wrap(utf8);
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(bytes)
                    .toString();
            return read(text, label, kind);
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
     * Reads a file from its text.
     *
     * @param text its contents, with or without a byte order mark
     * @param label what to call it in messages
     * @throws ProfileException where it cannot be read at all
     */
    public static TomlFile read(String text, String label, Kind kind) {
        String toml = text.startsWith("\uFEFF") ? text.substring(1) : text;
        refuseMonsters(toml, label, kind);
        ErrorCollector problems = new ErrorCollector(label, 0);
        TomlParseResult result = parse(toml, label, kind);
        result.errors().stream().limit(MAX_SYNTAX_ERRORS).forEach(error -> addSyntaxError(error, problems, kind));
        if (result.hasErrors()) {
            problems.partOnly();
        }
        return new TomlFile(result, label, problems);
    }

    /** The table of the whole file. */
    public KeyedTable top() {
        return new KeyedTable(table, "", label, 1, problems);
    }

    /**
     * Ends the reading.
     *
     * @throws ProfileException with everything that is wrong, if anything is
     */
    public void throwIfAny() {
        problems.throwIfAny();
    }

    ErrorCollector problems() {
        return problems;
    }

    private static TomlParseResult parse(String toml, String label, Kind kind) {
        try {
            return Toml.parse(toml);
        } catch (RuntimeException | StackOverflowError e) {
            // The parser is another's code and recurses: a text that defeats it is a bad file, not a crash of ours.
            throw whole(label, "cannot be read as TOML", "start again from a " + kind.models());
        }
    }

    /** Turns away text made to keep a parser busy rather than to describe anything. */
    private static void refuseMonsters(String toml, String label, Kind kind) {
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
                String remedy = "start again from a " + kind.models();
                throw new ProfileException(List.of(new ProfileError(label, line, column, "", "", problem, "", remedy)));
            }
        }
    }

    private static void addSyntaxError(TomlParseError error, ErrorCollector problems, Kind kind) {
        TomlPosition at = error.position();
        String why = error.getMessage() == null ? "unreadable" : error.getMessage();
        problems.addAt(
                at.line(),
                at.column(),
                "",
                "",
                "is not TOML here: " + why,
                "",
                "mend this line; the " + kind.models() + "s show how it is written");
    }

    private static ProfileException whole(String label, String problem, String remedy) {
        return new ProfileException(List.of(new ProfileError(label, 0, 0, "", "", problem, "", remedy)));
    }
}

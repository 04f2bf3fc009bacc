package tracksoak.bench.stream;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The text at the head of every file of a run, as {@link StreamFiles} writes it. */
public final class PatternHeader {

    static final String TITLE = "TRACKSOAK TEST PATTERN - NOT AUDIO, NEVER PLAY THIS FILE\n";
    static final String OPEN = "open";
    static final String CLOSED = "closed, data bytes ";

    /** Digits of the length in {@link #CLOSED_LENGTH}, so that it can be written over in its place. */
    static final int LENGTH_DIGITS = 18;

    static final String CLOSED_LENGTH = CLOSED + "0".repeat(LENGTH_DIGITS);
    private static final int LONGEST = 512;
    private static final Pattern LENGTH = Pattern.compile(CLOSED + "([0-9]{1,18})\n");

    private PatternHeader() {}

    /** The head of a file that goes on growing, or of one that is closed; in US-ASCII. */
    static String text(long runId, String label, int stream, int part, long firstBlock, String state) {
        return TITLE
                + String.format(
                        java.util.Locale.ROOT,
                        "run %016x, %s, stream %d, part %d, first block %d, %s\n",
                        runId,
                        label,
                        stream + 1,
                        part,
                        firstBlock,
                        state);
    }

    /**
     * The length a header tells, in bytes of data; empty if it says that the file goes on growing, or is none.
     *
     * @param head what the file begins with, from position 0 to its limit; position and limit are left alone
     */
    public static OptionalLong dataBytes(ByteBuffer head) {
        byte[] bytes = new byte[Math.min(LONGEST, head.limit())];
        head.get(0, bytes);
        String text = new String(bytes, StandardCharsets.US_ASCII);
        Matcher length = LENGTH.matcher(text);
        return text.startsWith(TITLE) && length.find()
                ? OptionalLong.of(Long.parseLong(length.group(1)))
                : OptionalLong.empty();
    }
}

package tracksoak.profiles.base;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Text from outside (hardware, labels of volumes, names of files, messages of the system) sanitized, so that it is
 * harmless to look at: it can then neither steer a terminal, nor turn the reading direction, nor break a line, nor hide.
 * Escaping for HTML or JSON is still the job of whoever writes those. Stateless; any thread.
 */
public final class Inert {

    /** Longest text kept or shown, in characters. */
    public static final int LONGEST = 200;

    /** Accents stacked on one letter that are still shown as such. */
    private static final int ACCENTS = 3;

    private static final int ZERO_WIDTH_NON_JOINER = 0x200C;
    private static final int ZERO_WIDTH_JOINER = 0x200D;

    private Inert() {}

    /**
     * What the record keeps of a text from outside: as it came, but without white space and NULs at its ends and not
     * longer than {@value #LONGEST} characters. Null if nothing is left.
     */
    public static @Nullable String kept(@Nullable String raw) {
        if (raw == null) {
            return null;
        }
        int start = 0;
        int end = raw.length();
        while (start < end && blank(raw.charAt(start))) {
            start++;
        }
        while (end > start && blank(raw.charAt(end - 1))) {
            end--;
        }
        if (end - start > LONGEST) {
            end = start + LONGEST;
            if (Character.isHighSurrogate(raw.charAt(end - 1))) {
                end--;
            }
        }
        return start == end ? null : raw.substring(start, end);
    }

    /**
     * What people are shown of a text from outside: on one line, at most {@value #LONGEST} characters and an ellipsis,
     * every character that does not show (controls, line ends, direction marks, fillers, half surrogates) written as
     * {@code [U+202E]}, all kinds of space as a plain one.
     */
    public static String text(@Nullable String raw) {
        return raw == null ? "" : shown(raw, LONGEST);
    }

    /** The same for a whole sentence with pieces from outside in it: never cut. */
    public static String whole(String sentence) {
        return shown(sentence, Integer.MAX_VALUE);
    }

    private static String shown(String raw, int longest) {
        if (raw.length() <= longest && simple(raw)) {
            return raw;
        }
        StringBuilder shown = new StringBuilder(Math.min(raw.length(), longest) + 16);
        int accents = 0;
        int i = 0;
        while (i < raw.length()) {
            int point = raw.codePointAt(i);
            i += Character.charCount(point);
            int type = Character.getType(point);
            accents = type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK ? accents + 1 : 0;
            String piece = piece(point, type, accents);
            if (shown.length() + piece.length() > longest) {
                return shown.append('…').toString();
            }
            shown.append(piece);
        }
        return shown.toString();
    }

    /** A value in quotes, shown as {@link #text}. */
    public static String quoted(Object value) {
        return '"' + text(value.toString()) + '"';
    }

    /**
     * A value out of a session file as that file could hold it: every character that {@link #mustBeEscaped must be
     * escaped} there is spelled {@code \\u202E}, all others stay.
     *
     * @param longest most characters, an ellipsis in place of the rest included; at least 2
     */
    public static String escaped(String value, int longest) {
        StringBuilder escaped = new StringBuilder();
        int at = 0;
        while (at < value.length()) {
            int point = value.codePointAt(at);
            at += Character.charCount(point);
            if (mustBeEscaped(point)) {
                escaped.append(String.format(Locale.ROOT, "\\u%04X", point));
            } else {
                escaped.appendCodePoint(point);
            }
            if (escaped.length() > longest) {
                int end = Character.isHighSurrogate(escaped.charAt(longest - 2)) ? longest - 2 : longest - 1;
                return escaped.substring(0, end) + "…";
            }
        }
        return escaped.toString();
    }

    /**
     * Whether a character of a session file moves the cursor, turns the writing direction, breaks a line or shows nothing
     * at all. The two joiners pass: some scripts are not written rightly without them.
     */
    public static boolean mustBeEscaped(int point) {
        return point != ZERO_WIDTH_NON_JOINER && point != ZERO_WIDTH_JOINER && unseen(Character.getType(point));
    }

    /** Whether it is printable ASCII throughout, as nearly every text is: harmless as it stands. */
    public static boolean simple(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < ' ' || c > '~') {
                return false;
            }
        }
        return true;
    }

    private static String piece(int point, int type, int accents) {
        if (type == Character.SPACE_SEPARATOR) {
            return " ";
        }
        return accents > ACCENTS || hidden(point, type)
                ? String.format(Locale.ROOT, "[U+%04X]", point)
                : Character.toString(point);
    }

    private static boolean hidden(int point, int type) {
        // besides the types: letters and marks drawn as nothing (Unicode: Default_Ignorable_Code_Point)
        return unseen(type)
                || point == 0x34F
                || point == 0x115F
                || point == 0x1160
                || point == 0x17B4
                || point == 0x17B5
                || (point >= 0x180B && point <= 0x180F)
                || point == 0x3164
                || (point >= 0xFE00 && point <= 0xFE0F)
                || point == 0xFFA0
                || (point >= 0xE0100 && point <= 0xE01EF);
    }

    private static boolean unseen(int type) {
        return switch (type) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED -> true;
            default -> false;
        };
    }

    private static boolean blank(char c) {
        return c <= ' ' || Character.isWhitespace(c) || Character.isSpaceChar(c);
    }
}

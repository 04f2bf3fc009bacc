package tracksoak.profiles.base;

import java.util.Locale;

/** Makes text from outside fit to be shown on a terminal: no control characters, bounded length. */
public final class SafeText {
    private static final int ZERO_WIDTH_NON_JOINER = 0x200C;
    private static final int ZERO_WIDTH_JOINER = 0x200D;

    private SafeText() {}

    /** True for characters that move the cursor, turn the writing direction, break lines or show nothing at all. */
    public static boolean isUnsafe(int codePoint) {
        if (codePoint == ZERO_WIDTH_NON_JOINER || codePoint == ZERO_WIDTH_JOINER) {
            return false; // some scripts are not written rightly without them
        }
        return switch (Character.getType(codePoint)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED -> true;
            default -> false;
        };
    }

    /** The text with unsafe characters spelled as {@code \\uXXXX} and cut to the length given. */
    public static String clip(String text, int maxChars) {
        StringBuilder safe = new StringBuilder();
        int at = 0;
        while (at < text.length()) {
            int codePoint = text.codePointAt(at);
            at += Character.charCount(codePoint);
            if (isUnsafe(codePoint)) {
                safe.append(String.format(Locale.ROOT, "\\u%04X", codePoint));
            } else {
                safe.appendCodePoint(codePoint);
            }
            if (safe.length() > maxChars) {
                int end = Character.isHighSurrogate(safe.charAt(maxChars - 2)) ? maxChars - 2 : maxChars - 1;
                return safe.substring(0, end) + "…";
            }
        }
        return safe.toString();
    }
}

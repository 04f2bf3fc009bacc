package tracksoak.report.page.view;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Text from outside, made safe to look at. Every character that is invisible or changes the order or shape of its
 * neighbours (controls, bidi marks, zero-width characters, line separators, unassigned and private code points) is
 * shown as {@code ‹U+202E›}. Escaping for HTML is the template's part.
 *
 * @param text what is shown, at most {@value #MOST_SHOWN} code points
 * @param full the whole text, cleaned in the same way
 */
public record Shown(String text, String full) {

    /** Most code points shown in place; the whole text is then in the title of its element. */
    public static final int MOST_SHOWN = 160;

    private static final String UNKNOWN = "unknown";

    /** Text that may hold anything. */
    public static Shown of(String outside) {
        String full = clean(outside);
        if (full.codePointCount(0, full.length()) <= MOST_SHOWN) {
            return new Shown(full, full);
        }
        int end = full.offsetByCodePoints(0, MOST_SHOWN - 1);
        return new Shown(full.substring(0, end) + "…", full);
    }

    /** The same, with {@code unknown} for null and blank. */
    public static Shown orUnknown(@Nullable String outside) {
        return of(outside == null || outside.isBlank() ? UNKNOWN : outside);
    }

    /** A whole sentence, cleaned but never cut short. */
    public static Shown whole(String outside) {
        String full = clean(outside);
        return new Shown(full, full);
    }

    /** True where {@link #text} is shorter than {@link #full}. */
    public boolean cut() {
        return !text.equals(full);
    }

    /** The text with every invisible or reordering character made visible. */
    public static String clean(String outside) {
        StringBuilder clean = new StringBuilder(outside.length());
        outside.codePoints().forEach(point -> {
            if (harmless(point)) {
                clean.appendCodePoint(point);
            } else {
                clean.append(String.format(Locale.ROOT, "‹U+%04X›", point));
            }
        });
        return clean.toString();
    }

    private static boolean harmless(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR -> false;
            default -> true;
        };
    }
}

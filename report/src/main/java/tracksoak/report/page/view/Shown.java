package tracksoak.report.page.view;

import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;

/**
 * Text from outside as the page shows it, made harmless by {@link Inert}. Escaping for HTML is the template's part.
 *
 * @param text what is shown in place
 * @param full the whole text, made harmless in the same way
 */
public record Shown(String text, String full) {

    private static final int LONGEST_SENTENCE = 600;
    private static final String UNKNOWN = "unknown";
    private static final Pattern BITS = Pattern.compile("(?<=\\d)-bit\\b");
    /** No name, number or date of ours is as long. */
    private static final Pattern LONG_WORD = Pattern.compile("\\S{20}");

    /** Text that may hold anything; long text is cut short in place. */
    public static Shown of(String outside) {
        return new Shown(Inert.text(outside), clean(outside));
    }

    /** The same, with {@code unknown} for null and blank. */
    public static Shown orUnknown(@Nullable String outside) {
        return of(outside == null || outside.isBlank() ? UNKNOWN : outside);
    }

    /** A whole sentence, cut short in place only where it is far longer than one. */
    public static Shown whole(String outside) {
        String full = clean(outside);
        if (full.codePointCount(0, full.length()) <= LONGEST_SENTENCE) {
            return new Shown(full, full);
        }
        return new Shown(full.substring(0, full.offsetByCodePoints(0, LONGEST_SENTENCE)) + "…", full);
    }

    /** What is shown in place, so that no line ends between a number and its bits. */
    public String unbroken() {
        return unbroken(text);
    }

    /** The same of any text. */
    public static String unbroken(String text) {
        return BITS.matcher(text).replaceAll("\u2011bit");
    }

    /** {@code long} where a word in it is too long for a line and may be broken anywhere; else null. */
    public @Nullable String style() {
        return LONG_WORD.matcher(text).find() ? "long" : null;
    }

    /** True where {@link #text} is shorter than {@link #full}. */
    public boolean cut() {
        return !text.equals(full);
    }

    /** The whole text with everything invisible made visible. */
    public static String clean(String outside) {
        return Inert.whole(outside);
    }
}

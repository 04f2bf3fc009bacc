package tracksoak.profiles.base;

import java.util.List;
import java.util.Locale;

/** Counted and listed things in words, and where a sentence begins. */
public final class Count {

    private Count() {}

    /** {@code no stalls}, {@code 1 stall}, {@code 1,234 stalls}. */
    public static String of(long count, String noun) {
        return of(count, noun, noun + "s");
    }

    /** The same for nouns with a plural of their own. */
    public static String of(long count, String one, String many) {
        return count == 0 ? "no " + many : number(count) + " " + (count == 1 ? one : many);
    }

    /** The same with none in digits, too: {@code 0 stalls}. */
    public static String inDigits(long count, String noun) {
        return inDigits(count, noun, noun + "s");
    }

    /** The same for nouns with a plural of their own, and for verbs: {@code 1 is gone}, {@code 2 are gone}. */
    public static String inDigits(long count, String one, String many) {
        return number(count) + " " + (count == 1 ? one : many);
    }

    /** {@code a}, {@code a and b}, {@code a, b and c}. */
    public static String list(List<String> things) {
        int last = things.size() - 1;
        return last <= 0
                ? String.join("", things)
                : String.join(", ", things.subList(0, last)) + " and " + things.get(last);
    }

    /** With a capital, for the beginning of a sentence. */
    public static String capital(String words) {
        return words.isEmpty() ? words : Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    /** Words of a command line as a sentence of a page. */
    public static String sentence(String words) {
        return capital(words) + (words.isEmpty() || words.matches("(?s).*[.?!]") ? "" : ".");
    }

    /** {@code 1,234}. */
    public static String number(long count) {
        return String.format(Locale.ROOT, "%,d", count);
    }
}

package tracksoak.profiles.base;

import java.util.Locale;

/** Counted things in words. */
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

    /** {@code 1,234}. */
    public static String number(long count) {
        return String.format(Locale.ROOT, "%,d", count);
    }
}

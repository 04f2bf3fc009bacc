package tracksoak.report.page;

import java.util.Locale;

/** Counted things in words. */
final class Count {

    private Count() {}

    /** {@code no stalls}, {@code 1 stall}, {@code 1,234 stalls}. */
    static String of(long count, String noun) {
        if (count == 0) {
            return "no " + noun + "s";
        }
        return number(count) + " " + noun + (count == 1 ? "" : "s");
    }

    /** {@code 1,234}. */
    static String number(long count) {
        return String.format(Locale.ROOT, "%,d", count);
    }
}

package tracksoak.report.verdict;

import java.util.Locale;

/** Chances in words, as a person says them. Stateless. */
public final class OddsWords {

    private static final double OFTEN = 0.1;
    private static final double SURE = 0.995;
    private static final double RARE = 1e-6;

    private OddsWords() {}

    /** A chance 0…1: {@code 37 %} from a tenth on, else {@code 1 in 400}, with two digits. */
    public static String chance(double chance) {
        if (chance >= SURE) {
            return "over 99 %";
        }
        if (chance >= OFTEN) {
            return Math.round(chance * 100) + " %";
        }
        if (chance < RARE) {
            return "below 1 in a million";
        }
        double one = 1 / chance;
        double step = Math.max(1, Math.pow(10, Math.floor(Math.log10(one)) - 1));
        return "1 in " + String.format(Locale.ROOT, "%,d", Math.round(Math.round(one / step) * step));
    }

    /** The same in a sentence: {@code about 1 in 400}, but {@code over 99 %}. */
    static String about(double chance) {
        return (chance >= SURE || chance < RARE ? "" : "about ") + chance(chance);
    }

    /** An interval, the likelier end first: {@code 1 in 90 to 1 in 3,000}. */
    public static String interval(double least, double most) {
        String to = chance(least);
        String from = chance(most);
        return from.equals(to) ? from : from + " to " + to;
    }
}

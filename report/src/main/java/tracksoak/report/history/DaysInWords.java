package tracksoak.report.history;

import java.util.List;

/** Lengths of time as people say them. */
final class DaysInWords {

    private static final List<String> NUMBERS = List.of(
            "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve");
    private static final double WEEK = 7;
    private static final double MONTH = 365.25 / 12;
    private static final double YEAR = 365.25;

    private DaysInWords() {}

    /** {@code five months}, {@code three weeks}, {@code 14 days}, {@code two years}. */
    static String words(double days) {
        if (days < 2 * WEEK) {
            return count(days, 1, "day");
        }
        if (days < 2 * MONTH) {
            return count(days, WEEK, "week");
        }
        return days < 2 * YEAR ? count(days, MONTH, "month") : count(days, YEAR, "year");
    }

    private static String count(double days, double unit, String one) {
        long n = Math.round(days / unit);
        return (n < NUMBERS.size() ? NUMBERS.get((int) n) : Long.toString(n)) + " " + one + (n == 1 ? "" : "s");
    }
}

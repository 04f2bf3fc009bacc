package tracksoak.report.history;

import java.util.List;
import java.util.function.DoubleUnaryOperator;

/** Lengths of time as people say them. */
final class DaysInWords {

    private static final List<String> NUMBERS = List.of(
            "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve");
    private static final double WEEK = 7;
    private static final double MONTH = 365.25 / 12;
    private static final double YEAR = 365.25;

    /** Days come from times in fractions, which are not exact. */
    private static final double SLACK = 1e-6;

    private DaysInWords() {}

    /** {@code five months}, {@code three weeks}, {@code 14 days}, {@code two years}. */
    static String words(double days) {
        return words(days, Math::round);
    }

    /** The same, and no more than it is. */
    static String atLeast(double days) {
        return words(days, units -> Math.floor(units + SLACK));
    }

    /** The same, and no less than it is. */
    static String atMost(double days) {
        return words(days, units -> Math.ceil(units - SLACK));
    }

    private static String words(double days, DoubleUnaryOperator rounded) {
        if (days < 2 * WEEK) {
            return count(days, 1, "day", rounded);
        }
        if (days < 2 * MONTH) {
            return count(days, WEEK, "week", rounded);
        }
        return days < 2 * YEAR ? count(days, MONTH, "month", rounded) : count(days, YEAR, "year", rounded);
    }

    private static String count(double days, double unit, String one, DoubleUnaryOperator rounded) {
        long n = (long) rounded.applyAsDouble(days / unit);
        return (n < NUMBERS.size() ? NUMBERS.get((int) n) : Long.toString(n)) + " " + one + (n == 1 ? "" : "s");
    }
}

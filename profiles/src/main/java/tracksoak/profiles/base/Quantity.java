package tracksoak.profiles.base;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Sizes, times and sample rates as people write them in session files and on the command line, always with their unit:
 * {@code 64 KiB}, {@code 1h30min}, {@code 48 kHz}. One space may stand before a unit and between the parts of a time.
 * Decimal units are powers of 1,000 and binary units powers of 1,024 (IEC 80000-13). The language of the computer never
 * changes what is read or written. Stateless; any thread.
 */
public final class Quantity {
    private static final Pattern PART = Pattern.compile("([0-9]{1,19}(?:\\.[0-9]{1,9})?) ?([A-Za-z]{1,4})");
    private static final int MOST_TIME_DIGITS = 15;
    private static final Map<String, Long> SIZE_UNITS = Map.of(
            "B", 1L,
            "kB", 1_000L,
            "KB", 1_000L,
            "MB", 1_000_000L,
            "GB", 1_000_000_000L,
            "TB", 1_000_000_000_000L,
            "KiB", 1L << 10,
            "MiB", 1L << 20,
            "GiB", 1L << 30,
            "TiB", 1L << 40);
    private static final Map<String, Long> TIME_UNITS_MS =
            Map.of("h", 3_600_000L, "min", 60_000L, "s", 1_000L, "ms", 1L);
    private static final Map<String, Long> RATE_UNITS = Map.of("Hz", 1L, "kHz", 1_000L);
    private static final String NO_SIZE =
            "is no size; write a number and a unit (B, kB, MB, GB, TB, KiB, MiB, GiB, TiB), for example 64 KiB";
    private static final String NO_LENGTH =
            "is no length; write numbers and units (h, min, s, ms), the larger first, for example 1 h 30 min";
    private static final String NO_RATE = "is no sample rate; write a number and a unit (Hz, kHz), for example 48 kHz";

    private Quantity() {}

    /**
     * Reads a size.
     *
     * @param text number and unit: B, kB, MB, GB, TB (powers of 1,000) or KiB, MiB, GiB, TiB (powers of 1,024)
     * @return bytes
     * @throws IllegalArgumentException with a sentence for people where it is no size in whole bytes
     */
    public static long bytes(String text) {
        return whole(amount(text, SIZE_UNITS, NO_SIZE), "bytes up to 2^63 - 1; write it in a smaller unit");
    }

    /**
     * Reads a sample rate.
     *
     * @param text number and unit: {@code 44100 Hz}, {@code 44.1 kHz}
     * @return Hz
     * @throws IllegalArgumentException with a sentence for people where it is no sample rate in whole Hz
     */
    public static long hertz(String text) {
        return whole(amount(text, RATE_UNITS, NO_RATE), "Hz");
    }

    /**
     * Reads a length of time.
     *
     * @param text numbers and units, the larger first: {@code 3 h}, {@code 1 h 30 min}, {@code 90 s}, {@code 250 ms}
     * @return seconds
     * @throws IllegalArgumentException with a sentence for people where it is no length in whole seconds
     */
    public static long seconds(String text) {
        return whole(milliseconds(text).movePointLeft(3), "seconds");
    }

    /** The same in whole ms. */
    public static long wholeMilliseconds(String text) {
        return whole(milliseconds(text), "ms");
    }

    /** The same in seconds and parts of one, as near as a double comes. */
    public static double exactTime(String text) {
        return milliseconds(text).movePointLeft(3).doubleValue();
    }

    private static BigDecimal milliseconds(String text) {
        String stripped = text.strip();
        Matcher part = PART.matcher(stripped);
        BigDecimal sum = BigDecimal.ZERO;
        long lastUnit = Long.MAX_VALUE;
        int at = 0;
        while (at < stripped.length() && part.region(at, stripped.length()).lookingAt()) {
            BigDecimal number = new BigDecimal(part.group(1));
            long unit = TIME_UNITS_MS.getOrDefault(part.group(2), Long.MAX_VALUE);
            if (unit >= lastUnit || number.precision() - number.scale() > MOST_TIME_DIGITS) {
                throw new IllegalArgumentException(NO_LENGTH);
            }
            sum = sum.add(number.multiply(BigDecimal.valueOf(unit)));
            lastUnit = unit;
            at = part.end();
            at += at < stripped.length() && stripped.charAt(at) == ' ' ? 1 : 0;
        }
        if (at == 0 || at < stripped.length()) {
            throw new IllegalArgumentException(NO_LENGTH);
        }
        return sum;
    }

    private static BigDecimal amount(String text, Map<String, Long> units, String otherwise) {
        Matcher amount = PART.matcher(text.strip());
        Long unit = amount.matches() ? units.get(amount.group(2)) : null;
        if (unit == null) {
            throw new IllegalArgumentException(otherwise);
        }
        return new BigDecimal(amount.group(1)).multiply(BigDecimal.valueOf(unit));
    }

    private static long whole(BigDecimal value, String units) {
        try {
            return value.setScale(0, RoundingMode.UNNECESSARY).longValueExact();
        } catch (ArithmeticException e) {
            throw new IllegalArgumentException("is not a whole number of " + units, e);
        }
    }

    /** A size exactly as {@link #bytes} reads it back: {@code 64 KiB}, or plain bytes where no binary unit fits evenly. */
    public static String exactBytes(long bytes) {
        String[] units = {"B", "KiB", "MiB", "GiB", "TiB"};
        int unit = 0;
        long value = bytes;
        while (unit < units.length - 1 && value != 0 && value % 1024 == 0) {
            value /= 1024;
            unit++;
        }
        return value + " " + units[unit];
    }

    /** A length exactly as {@link #seconds} reads it back: {@code 3 h}, {@code 1 h 30 min}, {@code 45 s}. */
    public static String exactSeconds(long seconds) {
        StringBuilder text = new StringBuilder();
        long h = seconds / 3600;
        long min = seconds / 60 % 60;
        long s = seconds % 60;
        text.append(h > 0 ? h + " h " : "").append(min > 0 ? min + " min " : "");
        text.append(s > 0 || text.isEmpty() ? s + " s" : "");
        return text.toString().strip();
    }

    /** A factor, a count of seconds or the like, without a needless fraction: {@code 10}, {@code 1.25}. */
    public static String plain(double number) {
        return number == Math.rint(number) && Math.abs(number) < 1e15
                ? String.format(Locale.ROOT, "%d", (long) number)
                : Double.toString(number);
    }
}

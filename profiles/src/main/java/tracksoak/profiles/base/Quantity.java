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
    private static final Map<String, Long> TIME_UNITS_NS = Map.of(
            "h", 3_600_000_000_000L,
            "min", 60_000_000_000L,
            "s", 1_000_000_000L,
            "ms", 1_000_000L,
            "us", 1_000L,
            "ns", 1L);
    private static final Map<String, Long> RATE_UNITS = Map.of("Hz", 1L, "kHz", 1_000L);
    private static final String NO_SIZE =
            "is no size; write a number and a unit (B, kB, MB, GB, TB, KiB, MiB, GiB, TiB), for example 64 KiB";
    private static final String NO_LENGTH =
            "is no length; write numbers and units (h, min, s, ms), the larger first, for example 1 h 30 min";
    private static final String PER_SECOND = "/s";
    private static final Pattern SHARE = Pattern.compile("([0-9]{1,9}(?:\\.[0-9]{1,6})?) ?%");
    private static final String NO_TIME =
            "is no time; write numbers and units (h, min, s, ms, us, ns), the larger first, for example 150 us";
    private static final String NO_DATA_RATE =
            "is no rate; write a number and a unit (B/s, kB/s, MB/s, GB/s, KiB/s, MiB/s, GiB/s), for example 40 MB/s";
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

    /**
     * Reads a time that may be short.
     *
     * @param text numbers and units, the larger first: {@code 150 us}, {@code 2.5 ms}, {@code 1 min 30 s}
     * @return ns
     * @throws IllegalArgumentException with a sentence for people where it is no time in whole ns
     */
    public static long nanoseconds(String text) {
        return whole(sum(text, TIME_UNITS_NS, NO_TIME), "ns up to 2^63 - 1");
    }

    /**
     * Reads a rate of data.
     *
     * @param text a size as {@link #bytes} reads it, and {@code /s}: {@code 40 MB/s}
     * @return bytes per second
     * @throws IllegalArgumentException with a sentence for people where it is no rate in whole bytes per second
     */
    public static long bytesPerSecond(String text) {
        String stripped = text.strip();
        if (!stripped.endsWith(PER_SECOND)) {
            throw new IllegalArgumentException(NO_DATA_RATE);
        }
        String size = stripped.substring(0, stripped.length() - PER_SECOND.length());
        return whole(amount(size, SIZE_UNITS, NO_DATA_RATE), "bytes per second up to 2^63 - 1");
    }

    /**
     * Reads a share.
     *
     * @param text a number and a per cent sign: {@code 12 %}, {@code 0.6 %}
     * @return thousandths
     * @throws IllegalArgumentException with a sentence for people where it is no share in whole thousandths
     */
    public static long permille(String text) {
        Matcher share = SHARE.matcher(text.strip());
        if (!share.matches()) {
            throw new IllegalArgumentException("is no share; write a number and a per cent sign, for example 12.5 %");
        }
        return whole(new BigDecimal(share.group(1)).movePointRight(1), "tenths of a per cent");
    }

    private static BigDecimal milliseconds(String text) {
        return sum(text, TIME_UNITS_MS, NO_LENGTH);
    }

    private static BigDecimal sum(String text, Map<String, Long> units, String otherwise) {
        String stripped = text.strip();
        Matcher part = PART.matcher(stripped);
        BigDecimal sum = BigDecimal.ZERO;
        long lastUnit = Long.MAX_VALUE;
        int at = 0;
        while (at < stripped.length() && part.region(at, stripped.length()).lookingAt()) {
            BigDecimal number = new BigDecimal(part.group(1));
            long unit = units.getOrDefault(part.group(2), Long.MAX_VALUE);
            if (unit >= lastUnit || number.precision() - number.scale() > MOST_TIME_DIGITS) {
                throw new IllegalArgumentException(otherwise);
            }
            sum = sum.add(number.multiply(BigDecimal.valueOf(unit)));
            lastUnit = unit;
            at = part.end();
            at += at < stripped.length() && stripped.charAt(at) == ' ' ? 1 : 0;
        }
        if (at == 0 || at < stripped.length()) {
            throw new IllegalArgumentException(otherwise);
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

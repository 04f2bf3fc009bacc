package tracksoak.profiles.base;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Sizes and lengths as people write them, always with their unit: {@code 64 KiB}, {@code 4 GB}, {@code 1 h 30 min}.
 * Decimal units are powers of 1,000 and binary units powers of 1,024 (IEC 80000-13). The language of the computer never
 * changes what is read or written.
 */
public final class Quantity {
    private static final Pattern SIZE = Pattern.compile("([0-9]{1,19}(?:\\.[0-9]{1,6})?) ?([A-Za-z]{1,3})");
    private static final Pattern LENGTH_PART = Pattern.compile("([0-9]{1,9}(?:\\.[0-9]{1,6})?) ?(h|min|s)(?: |$)?");
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
    private static final Map<String, Long> LENGTH_UNITS = Map.of("h", 3600L, "min", 60L, "s", 1L);

    private Quantity() {}

    /**
     * Reads a size.
     *
     * @param text number and unit: B, kB, MB, GB, TB (powers of 1,000) or KiB, MiB, GiB, TiB (powers of 1,024)
     * @return bytes
     * @throws IllegalArgumentException with a sentence for people where it is no size in whole bytes
     */
    public static long bytes(String text) {
        Matcher size = SIZE.matcher(text.strip());
        Long unit = size.matches() ? SIZE_UNITS.get(size.group(2)) : null;
        if (unit == null) {
            throw new IllegalArgumentException(
                    "is no size; write a number and a unit (B, kB, MB, GB, TB, KiB, MiB, GiB, TiB), for example 64 KiB");
        }
        return whole(new BigDecimal(size.group(1)).multiply(BigDecimal.valueOf(unit)), "bytes");
    }

    /**
     * Reads a length of time.
     *
     * @param text numbers and units, the larger first: {@code 3 h}, {@code 1 h 30 min}, {@code 90 s}
     * @return seconds
     * @throws IllegalArgumentException with a sentence for people where it is no length in whole seconds
     */
    public static long seconds(String text) {
        Matcher part = LENGTH_PART.matcher(text.strip());
        BigDecimal sum = BigDecimal.ZERO;
        long lastUnit = Long.MAX_VALUE;
        int end = 0;
        while (part.find() && part.start() == end) {
            long unit = LENGTH_UNITS.getOrDefault(part.group(2), 1L);
            if (unit >= lastUnit) {
                break;
            }
            sum = sum.add(new BigDecimal(part.group(1)).multiply(BigDecimal.valueOf(unit)));
            lastUnit = unit;
            end = part.end();
        }
        if (end == 0 || end != text.strip().length()) {
            throw new IllegalArgumentException(
                    "is no length; write numbers and units (h, min, s), the larger first, for example 1 h 30 min");
        }
        return whole(sum, "seconds");
    }

    private static long whole(BigDecimal value, String units) {
        try {
            return value.setScale(0, RoundingMode.UNNECESSARY).longValueExact();
        } catch (ArithmeticException e) {
            throw new IllegalArgumentException(
                    "is not a whole number of " + units + " up to 2^63 - 1; write it in a smaller unit", e);
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

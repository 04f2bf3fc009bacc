package tracksoak.profiles.base;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * Numbers with their units in words, the same on every computer. Decimal prefixes throughout: 1 MB is 1,000,000 bytes.
 * Any thread.
 */
public final class Units {

    private static final double MOST_FACTOR = 1000;

    private Units() {}

    /** A time in ms: {@code 0.42 ms}, {@code 12.3 ms}, {@code 812 ms}; from 1 s on as {@link #seconds}. */
    public static String ms(double ms) {
        if (Math.abs(ms) >= 999.5 && Double.isFinite(ms)) {
            return seconds(ms / 1000);
        }
        return number(ms, Math.abs(ms) < 1 ? 2 : Math.abs(ms) < 100 ? 1 : 0) + " ms";
    }

    /** The same of whole ms. */
    public static String ms(long ms) {
        return ms((double) ms);
    }

    /** A time in s: {@code 2.5 s}, {@code 12 min 30 s}, {@code 3 h 5 min}. */
    public static String seconds(double s) {
        double size = Math.abs(s);
        if (size < 119.95 || !Double.isFinite(s)) {
            return number(s, size < 10 ? 2 : 1) + " s";
        }
        long whole = Math.round(s);
        if (whole < 7200) {
            return whole / 60 + " min" + (whole % 60 == 0 ? "" : " " + whole % 60 + " s");
        }
        long minutes = Math.round(s / 60);
        return minutes / 60 + " h" + (minutes % 60 == 0 ? "" : " " + minutes % 60 + " min");
    }

    /** The same of whole s. */
    public static String seconds(long s) {
        return seconds((double) s);
    }

    /** {@code 34 days}, and in hours or less below two. */
    public static String days(double days) {
        return days < 2 ? seconds(days * 86_400) : Math.round(days) + " days";
    }

    /** A rate in bytes per second as MB/s with three digits: {@code 4.61 MB/s}, {@code 123 MB/s}. */
    public static String rate(double bytesPerSecond) {
        return digits(bytesPerSecond / 1e6) + " MB/s";
    }

    /** The same of whole bytes per second. */
    public static String rate(long bytesPerSecond) {
        return rate((double) bytesPerSecond);
    }

    /** An amount in bytes: {@code 512 B}, {@code 65.5 kB}, {@code 12.3 MB}, {@code 4.15 GB}, {@code 2 TB}. */
    public static String bytes(long bytes) {
        double size = Math.abs((double) bytes);
        if (size < 1000) {
            return bytes + " B";
        }
        if (size < 999_500) {
            return digits(bytes / 1e3) + " kB";
        }
        if (size < 999_500_000d) {
            return digits(bytes / 1e6) + " MB";
        }
        return size < 999_500_000_000d ? digits(bytes / 1e9) + " GB" : digits(bytes / 1e12) + " TB";
    }

    /**
     * A margin: {@code 1.99×}, {@code 23.4×}. Cut, never rounded up, so that a margin is not shown better than it is; above
     * 1000 it only says so.
     */
    public static String factor(double factor) {
        if (Double.isNaN(factor)) {
            return "unknown";
        }
        if (factor >= MOST_FACTOR) {
            return "at least 1000×";
        }
        int places = factor < 10 ? 2 : factor < 100 ? 1 : 0;
        double scale = Math.pow(10, places);
        // the small addend keeps 1.15 from becoming 1.14 for want of a binary fraction
        return number(Math.floor(factor * scale + 1e-9) / scale, places) + "×";
    }

    /** A share 0…1 as {@code 12.3 %}. */
    public static String percent(double share) {
        return number(share * 100, Math.abs(share) < 0.1 ? 2 : 1) + " %";
    }

    private static String digits(double value) {
        double size = Math.abs(value);
        return number(value, size < 9.995 ? 2 : size < 99.95 ? 1 : 0);
    }

    private static String number(double value, int places) {
        if (!Double.isFinite(value)) {
            return Double.isNaN(value) ? "unknown" : "endless";
        }
        // lists hold thousands of these, and to format each by a pattern takes longer than all else about them
        return BigDecimal.valueOf(value)
                .setScale(places, RoundingMode.HALF_UP)
                .stripTrailingZeros()
                .toPlainString();
    }
}

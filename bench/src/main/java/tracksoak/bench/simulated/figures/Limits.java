package tracksoak.bench.simulated.figures;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.LongFunction;
import tracksoak.bench.simulated.figures.OutOfRange.Figure;

/**
 * The ranges of a behaviour's figures, under the keys by which drive files write them. The bounds keep every product of two
 * figures and the bytes or time of a call within 63 bits.
 */
public final class Limits {

    /** Bytes or time that never come; written {@code "never"}. */
    public static final long NEVER = Long.MAX_VALUE;
    /** Longest time of anything, 24 h, in ns. */
    public static final long LONGEST_NS = 86_400_000_000_000L;

    /** Most bytes of anything but a rate. */
    public static final long MOST_BYTES = 1L << 50;

    private static final long LEAST_RATE = 1_000;
    private static final long MOST_RATE = 9_000_000_000L;
    private static final int MOST_ITEMS = 1_000_000_000;
    private static final long[] NS_PER = {3_600_000_000_000L, 60_000_000_000L, 1_000_000_000L, 1_000_000L, 1_000L, 1L};
    private static final String[] NS_UNITS = {"h", "min", "s", "ms", "us", "ns"};
    private static final long[] BYTES_PER = {
        1L << 40, 1_000_000_000_000L, 1L << 30, 1_000_000_000L, 1L << 20, 1_000_000L, 1L << 10, 1_000L, 1L
    };
    private static final String[] BYTES_UNITS = {"TiB", "TB", "GiB", "GB", "MiB", "MB", "KiB", "kB", "B"};

    private final List<Figure> broken = new ArrayList<>();

    /** A rate of 1 kB/s to 9 GB/s. */
    public Limits rate(String key, long bytesPerSecond) {
        return rate(key, bytesPerSecond, LEAST_RATE, MOST_RATE);
    }

    /** A rate, in B/s. */
    public Limits rate(String key, long bytesPerSecond, long least, long most) {
        return check(key, bytesPerSecond, least, most, value -> bytes(value) + "/s");
    }

    /** A time of 0 to 24 h, in ns. */
    public Limits time(String key, long ns) {
        return time(key, ns, 0, LONGEST_NS);
    }

    /** A time, in ns. */
    public Limits time(String key, long ns, long least, long most) {
        return check(key, ns, least, most, Limits::time);
    }

    /** An amount of bytes. */
    public Limits bytes(String key, long bytes, long least, long most) {
        return check(key, bytes, least, most, Limits::bytes);
    }

    /** A share, in thousandths. */
    public Limits share(String key, long permille, long least, long most) {
        return check(key, permille, least, most, Limits::share);
    }

    /** A count. */
    public Limits count(String key, long value, long least, long most) {
        return check(key, value, least, most, Long::toString);
    }

    /** One in so many: 1 to 1,000,000,000. */
    public Limits oneIn(String key, long value) {
        return count(key, value, 1, MOST_ITEMS);
    }

    /** A plain number. */
    public Limits number(String key, double value, double least, double most) {
        if (!(value >= least && value <= most)) {
            broken.add(new Figure(key, Double.toString(value), least + " to " + most));
        }
        return this;
    }

    /** Anything else that must hold. */
    public Limits fits(String key, String value, boolean fits, String allowed) {
        if (!fits) {
            broken.add(new Figure(key, value, allowed));
        }
        return this;
    }

    /** Throws everything that is out of range, if anything is. */
    public void hold() {
        if (!broken.isEmpty()) {
            throw new OutOfRange(broken);
        }
    }

    private Limits check(String key, long value, long least, long most, LongFunction<String> words) {
        if (value < least || value > most) {
            String to = most == NEVER ? " or more, or \"never\"" : " to " + words.apply(most);
            broken.add(new Figure(key, value == NEVER ? "never" : words.apply(value), words.apply(least) + to));
        }
        return this;
    }

    private static String bytes(long bytes) {
        return exact(bytes, BYTES_PER, BYTES_UNITS);
    }

    private static String time(long ns) {
        return exact(ns, NS_PER, NS_UNITS);
    }

    private static String share(long permille) {
        return permille % 10 == 0 ? permille / 10 + " %" : String.format(Locale.ROOT, "%.1f %%", permille / 10.0);
    }

    private static String exact(long value, long[] per, String[] units) {
        int unit = 0;
        while (value % per[unit] != 0) {
            unit++;
        }
        return value == 0 ? "0 " + units[units.length - 1] : value / per[unit] + " " + units[unit];
    }
}

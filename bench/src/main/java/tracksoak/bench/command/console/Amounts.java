package tracksoak.bench.command.console;

import java.math.BigDecimal;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Amounts as people type them. A unit is always asked for: nothing is guessed. */
public final class Amounts {

    private static final Pattern NUMBER_AND_UNIT = Pattern.compile("(\\d{1,15}(?:\\.\\d{1,9})?) ?([a-zA-Z]{1,4})");
    private static final Map<String, Long> MS_PER = Map.of("h", 3_600_000L, "min", 60_000L, "s", 1000L, "ms", 1L);
    private static final Map<String, Long> BYTES_PER = Map.of(
            "B",
            1L,
            "kB",
            1000L,
            "KiB",
            1L << 10,
            "MB",
            1_000_000L,
            "MiB",
            1L << 20,
            "GB",
            1_000_000_000L,
            "GiB",
            1L << 30,
            "TB",
            1_000_000_000_000L,
            "TiB",
            1L << 40);
    private static final Map<String, Long> HZ_PER = Map.of("Hz", 1L, "kHz", 1000L);

    private Amounts() {}

    /** A time in s, from {@code 250ms}, {@code 30s}, {@code 45min}, {@code 1h30min}. */
    public static final class Duration implements ITypeConverter<Double> {

        @Override
        public Double convert(String text) {
            Matcher part = NUMBER_AND_UNIT.matcher(text);
            BigDecimal ms = BigDecimal.ZERO;
            long unitBefore = Long.MAX_VALUE;
            int at = 0;
            while (at < text.length() && part.region(at, text.length()).lookingAt()) {
                long unit = MS_PER.getOrDefault(part.group(2), 0L);
                if (unit == 0 || unit >= unitBefore) {
                    break;
                }
                ms = ms.add(new BigDecimal(part.group(1)).multiply(BigDecimal.valueOf(unit)));
                unitBefore = unit;
                at = part.end();
            }
            if (at == 0 || at < text.length()) {
                throw unclear(text, "a time", "250ms, 30s, 45min or 1h30min");
            }
            return ms.movePointLeft(3).doubleValue();
        }
    }

    /** A size in bytes, from {@code 512B}, {@code 64KiB}, {@code 4GB}. */
    public static final class Size implements ITypeConverter<Long> {

        @Override
        public Long convert(String text) {
            return whole(text, BYTES_PER, "a size", "64KiB, 256MiB or 4GB");
        }
    }

    /** A sample rate in Hz, from {@code 48kHz}, {@code 44100Hz}. */
    public static final class SampleRate implements ITypeConverter<Integer> {

        @Override
        public Integer convert(String text) {
            long hz = whole(text, HZ_PER, "a sample rate", "44.1kHz, 48kHz or 96kHz");
            if (hz > Integer.MAX_VALUE) {
                throw unclear(text, "a sample rate", "44.1kHz, 48kHz or 96kHz");
            }
            return (int) hz;
        }
    }

    /** A plain number such as a factor. */
    public static final class Factor implements ITypeConverter<Double> {

        @Override
        public Double convert(String text) {
            try {
                return Double.valueOf(text);
            } catch (NumberFormatException noNumber) {
                throw new TypeConversionException("\"" + text + "\" is not a number. Write it like 2 or 1.25");
            }
        }
    }

    /** A plain whole number. */
    public static final class Count implements ITypeConverter<Integer> {

        @Override
        public Integer convert(String text) {
            try {
                return Integer.valueOf(text);
            } catch (NumberFormatException noNumber) {
                throw new TypeConversionException(
                        "\"" + text + "\" is not a whole number, or too large a one. Write it like 12");
            }
        }
    }

    private static long whole(String text, Map<String, Long> units, String kind, String examples) {
        Matcher whole = NUMBER_AND_UNIT.matcher(text);
        if (!whole.matches() || !units.containsKey(whole.group(2))) {
            throw unclear(text, kind, examples);
        }
        try {
            return new BigDecimal(whole.group(1))
                    .multiply(BigDecimal.valueOf(units.get(whole.group(2))))
                    .longValueExact();
        } catch (ArithmeticException notWhole) {
            throw unclear(text, kind, examples);
        }
    }

    private static TypeConversionException unclear(String text, String kind, String examples) {
        boolean bare = !text.isEmpty() && text.chars().allMatch(c -> (c >= '0' && c <= '9') || c == '.');
        return new TypeConversionException("\"" + text + "\" is not " + kind + (bare ? ": its unit is missing" : "")
                + ". Write it like " + examples);
    }
}

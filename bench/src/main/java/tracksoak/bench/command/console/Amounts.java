package tracksoak.bench.command.console;

import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;

/** Amounts as people type them, spelled as in session files. A unit is always asked for: nothing is guessed. */
public final class Amounts {

    private Amounts() {}

    /** A time in s, from {@code 250ms}, {@code 30s}, {@code 45min}, {@code 1h30min}. */
    public static final class Duration implements ITypeConverter<Double> {

        @Override
        public Double convert(String text) {
            return read(text, Quantity::exactTime, "a time", "250ms, 30s, 45min or 1h30min");
        }
    }

    /** A size in bytes, from {@code 512B}, {@code 64KiB}, {@code 4GB}. */
    public static final class Size implements ITypeConverter<Long> {

        @Override
        public Long convert(String text) {
            return read(text, Quantity::bytes, "a size", "64KiB, 256MiB or 4GB");
        }
    }

    /** A sample rate in Hz, from {@code 48kHz}, {@code 44100Hz}. */
    public static final class SampleRate implements ITypeConverter<Integer> {

        @Override
        public Integer convert(String text) {
            long hz = read(text, Quantity::hertz, "a sample rate", "44.1kHz, 48kHz or 96kHz");
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
            return whole(text, Integer::valueOf);
        }
    }

    /** A plain whole number that may be large, such as a seed. */
    public static final class LongCount implements ITypeConverter<Long> {

        @Override
        public Long convert(String text) {
            return whole(text, Long::valueOf);
        }
    }

    private static <N> N whole(String text, Function<String, N> read) {
        try {
            return read.apply(text);
        } catch (NumberFormatException noNumber) {
            throw new TypeConversionException(
                    "\"" + text + "\" is not a whole number, or too large a one. Write it like 12");
        }
    }

    /** Refuses a time in s below the least, or longer than any run may last; none is in order. */
    public static void bounded(String option, @Nullable Double seconds, double least) {
        if (seconds != null && (seconds < least || seconds > Plan.LONGEST_S)) {
            throw Problem.askedWrong(
                    option + " is " + Units.seconds(seconds) + "; allowed: " + Units.seconds(least) + " to "
                            + Units.seconds(Plan.LONGEST_S),
                    "choose a time in between");
        }
    }

    private static <T> T read(String text, Function<String, T> parser, String kind, String examples) {
        try {
            return parser.apply(text);
        } catch (IllegalArgumentException none) {
            throw unclear(text, kind, examples);
        }
    }

    private static TypeConversionException unclear(String text, String kind, String examples) {
        boolean bare = !text.isEmpty() && text.chars().allMatch(c -> (c >= '0' && c <= '9') || c == '.');
        return new TypeConversionException("\"" + text + "\" is not " + kind + (bare ? ": its unit is missing" : "")
                + ". Write it like " + examples);
    }
}

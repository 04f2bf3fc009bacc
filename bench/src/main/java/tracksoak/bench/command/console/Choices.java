package tracksoak.bench.command.console;

import java.util.Iterator;
import java.util.List;
import java.util.function.Function;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import tracksoak.bench.climb.Ladder;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Closest;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.report.record.facts.PlanName;

/** Options that take one of a few words. */
public final class Choices {

    private Choices() {}

    /** {@code file-per-track} or {@code interleaved}. */
    public static final class Layout extends Choice<FileLayout> {
        public Layout() {
            super("a file layout", FileLayout.values(), KebabCase::of);
        }
    }

    /** {@code burst} or {@code staggered}. */
    public static final class Arrivals extends Choice<Arrival> {
        public Arrivals() {
            super("an arrival", Arrival.values(), KebabCase::of);
        }
    }

    /** {@code 16-bit}, {@code 24-bit}, {@code 32-bit} or {@code 32-bit-float}. */
    public static final class WordLength extends Choice<SampleFormat> {
        public WordLength() {
            super(
                    "a word length",
                    SampleFormat.values(),
                    format -> format.words().replace(' ', '-'));
        }
    }

    /** {@code tracks} or {@code sample-rate}. */
    public static final class Grow extends Choice<Ladder.Kind> {
        Grow() {
            super("what a climb can make grow", Ladder.Kind.values(), KebabCase::of);
        }
    }

    /** {@code line-check}, {@code sound-check} or {@code full-show}. */
    public static final class Plans extends Choice<PlanName> {
        Plans() {
            super("a plan", PlanName.ASKED, PlanName::word);
        }
    }

    /** Turns one of the words into what it stands for, and lists them. */
    public abstract static class Choice<E extends Enum<E>> implements ITypeConverter<E>, Iterable<String> {

        private final String kind;
        private final List<E> values;
        private final Function<E, String> word;

        Choice(String kind, E[] values, Function<E, String> word) {
            this(kind, List.of(values), word);
        }

        Choice(String kind, List<E> values, Function<E, String> word) {
            this.kind = kind;
            this.values = values;
            this.word = word;
        }

        @Override
        public E convert(String text) {
            for (E value : values) {
                if (word.apply(value).equals(text)) {
                    return value;
                }
            }
            List<String> words = values.stream().map(word).toList();
            String hint = Closest.hint(text, words);
            throw new TypeConversionException(Inert.quoted(text) + " is not " + kind + (hint.isEmpty() ? "." : hint)
                    + " It is one of " + String.join(", ", words));
        }

        @Override
        public Iterator<String> iterator() {
            return values.stream().map(word).iterator();
        }
    }
}

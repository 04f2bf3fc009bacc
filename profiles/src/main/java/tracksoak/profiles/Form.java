package tracksoak.profiles;

import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Quantity;

/**
 * What kind of value stands under a key: how it is taken from a file, and how it is told. Immutable.
 *
 * @param <T> what the value is in Java
 */
public final class Form<T> {

    /** What it is, for those who ask for it elsewhere than in a file. */
    public enum Kind {
        TEXT,
        FLAG,
        WORD,
        WHOLE,
        SIZE,
        /** A time that must be whole seconds. */
        LENGTH,
        SECONDS,
        MILLISECONDS,
        HERTZ,
        FACTOR,
        TEXTS,
        TABLE
    }

    /** One text. */
    static final Form<String> TEXT = new Form<>(Kind.TEXT, String.class, KeyedTable::text, value -> value);
    /** Yes or no. */
    static final Form<Boolean> FLAG = new Form<>(Kind.FLAG, Boolean.class, KeyedTable::flag, String::valueOf);
    /** A whole number of things. */
    static final Form<Long> WHOLE = new Form<>(Kind.WHOLE, Long.class, KeyedTable::whole, String::valueOf);
    /** A size in bytes, told with the largest unit that fits evenly. */
    static final Form<Long> SIZE = new Form<>(Kind.SIZE, Long.class, KeyedTable::size, Quantity::exactBytes);
    /** A size in bytes, told in bytes. */
    static final Form<Long> BYTES = new Form<>(Kind.SIZE, Long.class, KeyedTable::size, value -> value + " B");
    /** A time in whole s. */
    static final Form<Long> LENGTH = new Form<>(Kind.LENGTH, Long.class, KeyedTable::length, Quantity::exactSeconds);
    /** A time in s and parts of one. */
    static final Form<Double> SECONDS =
            new Form<>(Kind.SECONDS, Double.class, KeyedTable::seconds, value -> Quantity.plain(value) + " s");
    /** A time in whole ms. */
    static final Form<Long> MILLISECONDS =
            new Form<>(Kind.MILLISECONDS, Long.class, KeyedTable::milliseconds, value -> value + " ms");
    /** A sample rate in whole Hz. */
    static final Form<Long> HERTZ = new Form<>(Kind.HERTZ, Long.class, KeyedTable::hertz, value -> value + " Hz");
    /** How many times over. */
    static final Form<Double> FACTOR =
            new Form<>(Kind.FACTOR, Double.class, KeyedTable::number, value -> Quantity.plain(value) + "×");
    /** Several texts. */
    static final Form<Double> SHARE = new Form<>(Kind.FACTOR, Double.class, KeyedTable::number, Quantity::plain);

    static final Form<List<String>> TEXTS = new Form<>(Kind.TEXTS, listOfTexts(), KeyedTable::texts, List::toString);
    /** A table, or several, with keys of their own. */
    static final Form<Object> TABLE = new Form<>(Kind.TABLE, Object.class, (table, key) -> null, String::valueOf);

    private final Kind kind;
    private final Class<T> type;
    private final BiFunction<KeyedTable, Key, @Nullable T> reader;
    private final Function<T, String> words;

    private Form(Kind kind, Class<T> type, BiFunction<KeyedTable, Key, @Nullable T> reader, Function<T, String> words) {
        this.kind = kind;
        this.type = type;
        this.reader = reader;
        this.words = words;
    }

    /** One of a few words. */
    static <E extends Enum<E>> Form<E> word(Class<E> type) {
        return new Form<>(Kind.WORD, type, (table, key) -> table.oneOf(key, type), ProfileWords::of);
    }

    public Kind kind() {
        return kind;
    }

    /** What the value is in Java. */
    public Class<T> type() {
        return type;
    }

    /** The value of a key in a file, null where it is not there or of another kind, which is then noted. */
    @Nullable
    T read(KeyedTable table, Key key) {
        return reader.apply(table, key);
    }

    /**
     * A value of this kind as it is kept: whole numbers as Long, others as Double.
     *
     * @throws IllegalArgumentException if it is of another kind
     */
    T take(Object value) {
        Object kept = value;
        if (value instanceof Number number && type == Long.class && !(value instanceof Double)) {
            kept = number.longValue();
        } else if (value instanceof Number number && type == Double.class) {
            kept = number.doubleValue() + 0.0; // -0.0 becomes 0.0, so that equal sessions are equal
        } else if (value instanceof List<?> texts) {
            kept = texts.stream().map(String.class::cast).collect(Collectors.toUnmodifiableList());
        }
        if (!type.isInstance(kept)) {
            throw new IllegalArgumentException(value + " is no " + type.getSimpleName());
        }
        return type.cast(kept);
    }

    /** A value in words, with its unit. */
    String words(Object value) {
        return words.apply(take(value));
    }

    @SuppressWarnings("unchecked")
    private static Class<List<String>> listOfTexts() {
        return (Class<List<String>>) (Class<?>) List.class;
    }
}

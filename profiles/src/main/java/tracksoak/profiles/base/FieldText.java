package tracksoak.profiles.base;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Values one after another in one text that only this program reads, each with its length before it: read many times faster than JSON or
 * TOML, and nothing of a library need be loaded for it. PostgreSQL takes no NUL in a text, so a value with one is written with marks in
 * place of them. Stateless; a writer or reader belongs to one thread.
 */
public final class FieldText {

    private static final char NONE = '-';
    private static final char MARKED = '*';
    private static final char LENGTH_ENDS = ':';
    private static final char TRUE = '1';

    private FieldText() {}

    /** Puts a text together. */
    public static final class Writer {
        private final StringBuilder text = new StringBuilder(2_048);

        public Writer put(@Nullable Object value) {
            if (value == null) {
                text.append(NONE);
                return this;
            }
            String plain = value.toString();
            if (plain.indexOf('\0') >= 0) {
                text.append(MARKED);
                plain = plain.replace("~", "~1").replace("\0", "~0");
            }
            text.append(plain.length()).append(LENGTH_ENDS).append(plain);
            return this;
        }

        public Writer put(boolean value) {
            return put(value ? 1 : 0);
        }

        public <T> Writer list(Collection<T> all, BiConsumer<Writer, T> one) {
            put(all.size());
            all.forEach(entry -> one.accept(this, entry));
            return this;
        }

        /** All that was put, in order. */
        public String text() {
            return text.toString();
        }
    }

    /** Goes through a text once. What was cut or is none ends the reading, see {@link #read}. */
    public static final class Reader {
        private final String text;
        private int at;

        private Reader(String text) {
            this.text = text;
        }

        /** Whether nothing more comes. */
        public boolean ended() {
            return at == text.length();
        }

        /** Passes over so many fields that were put; all of them as they stand in the text. */
        public String pass(int fields) {
            int from = at;
            for (int i = 0; i < fields; i++) {
                at += text.charAt(at) == MARKED ? 1 : 0;
                int length = length();
                at += length;
            }
            return text.substring(from, at);
        }

        /** A text, or null where that was put. */
        public @Nullable String next() {
            char first = text.charAt(at);
            if (first == NONE) {
                at++;
                return null;
            }
            if (first == MARKED) {
                at++;
            }
            int length = length();
            at += length;
            String plain = text.substring(at - length, at);
            return first == MARKED ? plain.replace("~0", "\0").replace("~1", "~") : plain;
        }

        private int length() {
            int length = 0;
            for (char digit = text.charAt(at++); digit != LENGTH_ENDS; digit = text.charAt(at++)) {
                if (digit < '0' || digit > '9') {
                    throw new NumberFormatException(text);
                }
                length = length * 10 + digit - '0';
            }
            return length;
        }

        /** A text. */
        public String said() {
            return Objects.requireNonNull(next());
        }

        /** A whole number. */
        public long number() {
            int length = length();
            at += length;
            return Long.parseLong(text, at - length, at, 10);
        }

        /** A whole number, or null where that was put. */
        public @Nullable Long whole() {
            if (text.charAt(at) == NONE) {
                at++;
                return null;
            }
            return number();
        }

        /** A whole number that is an int. */
        public int count() {
            return (int) number();
        }

        /** A number. */
        public double real() {
            return Double.parseDouble(said());
        }

        /** Yes or no. */
        public boolean flag() {
            if (length() != 1) {
                throw new NumberFormatException(text);
            }
            return text.charAt(at++) == TRUE;
        }

        /** Some of a kind, their number before them. */
        public <T> List<T> list(Function<Reader, T> one) {
            int size = count();
            List<T> all = new ArrayList<>(Math.min(size, text.length()));
            for (int i = 0; i < size; i++) {
                all.add(one.apply(this));
            }
            return all;
        }
    }

    /**
     * Reads a text.
     *
     * @throws IllegalStateException if it is not what was written
     */
    public static <T> T read(String text, Function<Reader, T> read) {
        try {
            return read.apply(new Reader(text));
        } catch (IndexOutOfBoundsException | IllegalArgumentException | NullPointerException e) {
            throw new IllegalStateException("a text kept by the program is not as it was written", e);
        }
    }
}

package tracksoak.profiles;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tomlj.TomlArray;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;
import tracksoak.profiles.base.Quantity;

/** One table of a file that people write: gives values of the right type, and notes every one that is not. */
public final class KeyedTable {
    private final TomlTable table;
    private final String prefix;
    private final String file;
    private final int line;
    private final ErrorCollector problems;

    /**
     * @param prefix what stands before the keys in messages, empty or ending in a dot
     * @param file name of the file, for messages
     * @param line line of the table's head, where a missing key is reported
     */
    KeyedTable(TomlTable table, String prefix, String file, int line, ErrorCollector problems) {
        this.table = table;
        this.prefix = prefix;
        this.file = file;
        this.line = line;
        this.problems = problems;
    }

    /** Notes every key that is none of these, with the one most likely meant. */
    public void refuseAllBut(Collection<? extends Keyed> known) {
        List<String> words = known.stream().map(Keyed::toml).toList();
        for (String key : table.keySet()) {
            if (!words.contains(key)) {
                place(key);
                Optional<String> meant = Closest.to(key, words);
                problems.add(
                        prefix + key,
                        shown(table.get(List.of(key))),
                        "is no key known here" + Closest.hint(key, words),
                        String.join(", ", words),
                        meant.map(m -> "write " + m).orElse("take it out"));
            }
        }
    }

    /** A text. */
    public @Nullable String text(Keyed key) {
        return of(key, String.class, "text in quotes");
    }

    /** True or false. */
    public @Nullable Boolean flag(Keyed key) {
        return of(key, Boolean.class, "true or false, without quotes");
    }

    /** A whole number. */
    public @Nullable Long whole(Keyed key) {
        return of(key, Long.class, "a whole number, without quotes");
    }

    /** A number, whole or not. */
    public @Nullable Double number(Keyed key) {
        Object value = value(key);
        if (value instanceof Long whole) {
            return whole.doubleValue();
        }
        if (value instanceof Double number) {
            return number;
        }
        wrongType(key, value, "a number, without quotes");
        return null;
    }

    /** A size in bytes: a whole number, or text with a unit. */
    public @Nullable Long size(Keyed key) {
        Object value = value(key);
        if (value instanceof Long bytes) {
            return bytes;
        }
        if (value instanceof String text) {
            return parsed(key, text, Quantity::bytes);
        }
        wrongType(key, value, "a whole number of bytes, or text with a unit");
        return null;
    }

    /** A length in seconds, written as text with units. */
    @Nullable
    Long length(Keyed key) {
        return amount(key, Quantity::seconds);
    }

    /** An amount written as text with its unit, as {@code parser} reads it. */
    public @Nullable Long amount(Keyed key, Function<String, Long> parser) {
        String text = of(key, String.class, "text with its unit");
        return text == null ? null : parsed(key, text, parser);
    }

    /** A time in s: a number, or text with units. */
    @Nullable
    Double seconds(Keyed key) {
        return textOr(key, Quantity::exactTime, this::number);
    }

    /** A time in whole ms: a whole number, or text with units. */
    @Nullable
    Long milliseconds(Keyed key) {
        return textOr(key, Quantity::wholeMilliseconds, this::whole);
    }

    /** A sample rate in whole Hz: a whole number, or text with its unit. */
    @Nullable
    Long hertz(Keyed key) {
        return textOr(key, Quantity::hertz, this::whole);
    }

    <E extends Enum<E>> @Nullable E oneOf(Keyed key, Class<E> type) {
        String word = of(key, String.class, "text in quotes");
        Map<String, E> words = ProfileWords.all(type);
        if (word != null && !words.containsKey(word)) {
            String meant = Closest.to(word, words.keySet())
                    .map(m -> "; did you mean \"" + m + "\"?")
                    .orElse("");
            problems.add(prefix + key.toml(), word, "is none of the words" + meant, key.allowed(), "write one of them");
        }
        return word == null ? null : words.get(word);
    }

    @Nullable
    List<String> texts(Keyed key) {
        TomlArray array = of(key, TomlArray.class, "a list of texts in square brackets");
        if (array == null) {
            return null;
        }
        List<String> texts = new ArrayList<>();
        for (Object value : array.toList()) {
            if (!(value instanceof String text)) {
                wrongType(key, array, "a list of texts in square brackets");
                return null;
            }
            texts.add(text);
        }
        return texts;
    }

    /** A table below this one; an absent one is noted and read as empty where it must be there. */
    @Nullable
    KeyedTable table(Keyed key) {
        TomlTable below = of(key, TomlTable.class, "a table");
        return below == null ? null : new KeyedTable(below, key.toml() + ".", file, lineOf(key), problems);
    }

    /** The groups under {@code [[key]]}; none where there is no such key. */
    List<SessionDraft.Group> groups(Key key) {
        List<SessionDraft.Group> groups = new ArrayList<>();
        for (KeyedTable keyed : tables(key)) {
            SessionDraft.Group group = new SessionDraft.Group(keyed.prefix.substring(0, keyed.prefix.length() - 1));
            keyed.refuseAllBut(Key.OF_GROUP);
            Key.OF_GROUP.forEach(each -> group.set(each, each.form().read(keyed, each)));
            groups.add(group);
        }
        return groups;
    }

    /** The tables under {@code [[key]]}; none where there is no such key. */
    public List<KeyedTable> tables(Keyed key) {
        List<KeyedTable> tables = new ArrayList<>();
        if (!table.contains(List.of(key.toml()))) {
            return tables;
        }
        TomlArray array = of(key, TomlArray.class, key.example());
        for (int i = 0; array != null && i < array.size(); i++) {
            if (!(array.get(i) instanceof TomlTable below)) {
                wrongType(key, array, key.example());
                break;
            }
            int headLine = array.inputPositionOf(i).line();
            tables.add(new KeyedTable(below, key.toml() + "[" + i + "].", file, headLine, problems));
        }
        return tables;
    }

    /** Notes that the value under a key is wrong. */
    public void wrong(Keyed key, Object value, String problem, String allowed, String remedy) {
        problems.add(prefix + key.toml(), value, problem, allowed, remedy);
    }

    /** Notes that a key, or any table under it, is not there. */
    public void missing(Keyed key) {
        problems.missing(line, 1, prefix + key.toml(), key);
    }

    /** Whether the key stands there, rightly or not. */
    public boolean has(Keyed key) {
        return table.contains(List.of(key.toml()));
    }

    private <T> @Nullable T textOr(Keyed key, Function<String, T> parser, Function<Keyed, @Nullable T> otherwise) {
        if (table.get(List.of(key.toml())) instanceof String text) {
            place(key.toml());
            return parsed(key, text, parser);
        }
        return otherwise.apply(key);
    }

    private <T> @Nullable T parsed(Keyed key, String text, Function<String, T> parser) {
        try {
            return parser.apply(text);
        } catch (IllegalArgumentException e) {
            String why = e.getMessage() == null ? "cannot be read" : e.getMessage();
            problems.add(prefix + key.toml(), text, why, key.allowed(), "write for example " + key.example());
            return null;
        }
    }

    private <T> @Nullable T of(Keyed key, Class<T> type, String words) {
        Object value = value(key);
        if (type.isInstance(value)) {
            return type.cast(value);
        }
        wrongType(key, value, words);
        return null;
    }

    private @Nullable Object value(Keyed key) {
        Object value = table.get(List.of(key.toml()));
        if (value == null) {
            problems.missing(line, 1, prefix + key.toml(), key);
        } else {
            place(key.toml());
        }
        return value;
    }

    private void wrongType(Keyed key, @Nullable Object value, String words) {
        if (value != null) {
            problems.add(
                    prefix + key.toml(),
                    shown(value),
                    "must be " + words,
                    key.allowed(),
                    "write for example " + key.example());
        }
    }

    private void place(String key) {
        TomlPosition at = table.inputPositionOf(List.of(key));
        String value = shown(table.get(List.of(key)));
        problems.place(
                prefix + key,
                at == null
                        ? new ErrorCollector.Place(file, line, 1, value)
                        : new ErrorCollector.Place(file, at.line(), at.column(), value));
    }

    private int lineOf(Keyed key) {
        TomlPosition at = table.inputPositionOf(List.of(key.toml()));
        return at == null ? line : at.line();
    }

    private static String shown(@Nullable Object value) {
        if (value == null) {
            return "";
        }
        if (value instanceof TomlTable) {
            return "(a table)";
        }
        if (value instanceof TomlArray array) {
            return array.size() > 4 || array.toList().stream().anyMatch(v -> v instanceof TomlTable)
                    ? "(a list of " + array.size() + ")"
                    : array.toList().toString();
        }
        return value instanceof String text ? "\"" + text + "\"" : value.toString();
    }
}

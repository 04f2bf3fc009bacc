package tracksoak.bench.command.console;

import java.lang.reflect.RecordComponent;
import java.util.Collection;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.KebabCase;

/**
 * Writes small JSON documents (RFC 8259) from maps, records, collections, strings, numbers, booleans and null; enums as in the run
 * record, in small letters with hyphens. Short commands use it because a JSON library takes longer to start than they take to run.
 */
public final class JsonText {

    private final StringBuilder text = new StringBuilder();

    private JsonText() {}

    /**
     * The value as indented text.
     *
     * @throws IllegalArgumentException for any other kind of value and for numbers JSON has no form for
     */
    public static String of(@Nullable Object value) {
        JsonText json = new JsonText();
        json.value(value, 0);
        return json.text.toString();
    }

    /** What a record holds, by the names of its components, in their order; the record must be public. */
    public static Map<String, @Nullable Object> fields(Record record) {
        Map<String, @Nullable Object> fields = new LinkedHashMap<>();
        for (RecordComponent component : record.getClass().getRecordComponents()) {
            try {
                fields.put(component.getName(), component.getAccessor().invoke(record));
            } catch (ReflectiveOperationException e) {
                throw new IllegalArgumentException("JSON has no form for a " + record.getClass(), e);
            }
        }
        return fields;
    }

    private void value(@Nullable Object value, int depth) {
        if (value == null || value instanceof Boolean || value instanceof Integer || value instanceof Long) {
            text.append(value);
        } else if (value instanceof Double number) {
            if (!Double.isFinite(number)) {
                throw new IllegalArgumentException("JSON has no form for " + number);
            }
            text.append(number);
        } else if (value instanceof Map<?, ?> map) {
            object(map, depth);
        } else if (value instanceof Record record) {
            object(fields(record), depth);
        } else if (value instanceof Collection<?> items) {
            array(items, depth);
        } else if (value instanceof Enum<?> word) {
            string(KebabCase.of(word));
        } else if (value instanceof CharSequence) {
            string(value.toString());
        } else {
            throw new IllegalArgumentException("JSON has no form for a " + value.getClass());
        }
    }

    private void object(Map<?, ?> map, int depth) {
        text.append('{');
        Iterator<? extends Map.Entry<?, ?>> entries = map.entrySet().iterator();
        while (entries.hasNext()) {
            Map.Entry<?, ?> entry = entries.next();
            line(depth + 1);
            string(String.valueOf(entry.getKey()));
            text.append(": ");
            value(entry.getValue(), depth + 1);
            text.append(entries.hasNext() ? "," : "");
        }
        end('}', map.isEmpty(), depth);
    }

    private void array(Collection<?> items, int depth) {
        text.append('[');
        Iterator<?> each = items.iterator();
        while (each.hasNext()) {
            line(depth + 1);
            value(each.next(), depth + 1);
            text.append(each.hasNext() ? "," : "");
        }
        end(']', items.isEmpty(), depth);
    }

    private void end(char bracket, boolean empty, int depth) {
        if (!empty) {
            line(depth);
        }
        text.append(bracket);
    }

    private void line(int depth) {
        text.append('\n').append("  ".repeat(depth));
    }

    private void string(String value) {
        text.append('"');
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                text.append('\\').append(c);
            } else if (c < 0x20
                    || c == 0x7f
                    || (c >= 0x80 && c < 0xa0)
                    || (Character.isSurrogate(c) && !paired(value, i))) {
                text.append(String.format(Locale.ROOT, "\\u%04x", (int) c));
            } else {
                text.append(c);
            }
        }
        text.append('"');
    }

    private static boolean paired(String value, int i) {
        char c = value.charAt(i);
        return Character.isHighSurrogate(c)
                ? i + 1 < value.length() && Character.isLowSurrogate(value.charAt(i + 1))
                : i > 0 && Character.isHighSurrogate(value.charAt(i - 1));
    }
}

package tracksoak.profiles.base;

import java.lang.reflect.Array;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The parts of a record by their names: for records of so many that a call with all of them in order tells nobody which is
 * which, and for copies in which a few differ. One thread.
 *
 * @param <R> the record, whose canonical constructor must be public
 */
public final class RecordParts<R extends Record> {

    private final Class<R> type;
    private final Map<String, @Nullable Object> values = new LinkedHashMap<>();

    private RecordParts(Class<R> type) {
        this.type = type;
    }

    /** Those of a record. */
    @SuppressWarnings("unchecked")
    public static <R extends Record> RecordParts<R> of(R record) {
        RecordParts<R> parts = new RecordParts<>((Class<R>) record.getClass());
        for (RecordComponent part : record.getClass().getRecordComponents()) {
            try {
                parts.values.put(part.getName(), part.getAccessor().invoke(record));
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("a record's own accessor cannot be called", e);
            }
        }
        return parts;
    }

    /** None of them yet: each must be said. */
    public static <R extends Record> RecordParts<R> unsaid(Class<R> type) {
        return new RecordParts<>(type);
    }

    /** None of them yet: what is not said is 0, false, an empty list, or null. */
    public static <R extends Record> RecordParts<R> empty(Class<R> type) {
        RecordParts<R> parts = new RecordParts<>(type);
        for (RecordComponent part : type.getRecordComponents()) {
            Object none = part.getType() == List.class ? List.of() : Array.get(Array.newInstance(part.getType(), 1), 0);
            parts.values.put(part.getName(), none);
        }
        return parts;
    }

    /** Says a part, in place of what it was. */
    public RecordParts<R> with(String part, @Nullable Object value) {
        values.put(part, value);
        return this;
    }

    /**
     * The record.
     *
     * @throws IllegalStateException if a part was not said, or what was said is no part of it
     */
    public R make() {
        RecordComponent[] parts = type.getRecordComponents();
        for (RecordComponent part : parts) {
            if (!values.containsKey(part.getName())) {
                throw new IllegalStateException("nothing was said about " + part.getName());
            }
        }
        Object[] all =
                Stream.of(parts).map(RecordComponent::getName).map(values::get).toArray();
        try {
            Constructor<R> constructor = type.getConstructor(
                    Stream.of(parts).map(RecordComponent::getType).toArray(Class<?>[]::new));
            if (values.size() == all.length) {
                return constructor.newInstance(all);
            }
        } catch (InvocationTargetException e) {
            if (e.getCause() instanceof RuntimeException refused) {
                throw refused;
            }
            throw new IllegalStateException(e);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(type + " cannot be made of its parts", e);
        }
        throw new IllegalStateException(type + " has not all of the parts " + values.keySet());
    }
}

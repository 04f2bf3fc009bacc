package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.RecordException;

/**
 * How one kind of record is written as JSON, read back and kept: bounded, as strict as {@link RecordMapper}, checked both
 * ways. Unknown names, missing parts, null where a value must be, and figures out of bounds are errors. What was written
 * reads back equal. Any thread.
 */
public final class RecordFormat<T extends Record> {

    /** Largest record read, in bytes. */
    static final int MOST_BYTES = 16 << 20;

    static final String NO_SCHEMA = "it does not say of what kind it is, as every record does";

    /** Throws a {@link RecordException} that begins with {@code what} at the first thing that cannot be. */
    interface Check<T> {
        void check(T record, String what);
    }

    /** Reads a record of the schema it says it is of. */
    interface Reader<T> {
        T read(byte[] json, Schema schema) throws IOException;
    }

    /** Looks for the schema; that takes half as long as to read all. */
    interface Schema {
        @Nullable
        String find() throws IOException;
    }

    private final String name;
    private final Check<T> check;
    private final Reader<T> reader;

    /**
     * @param name what errors call it: {@code run record}
     */
    RecordFormat(String name, Check<T> check, Reader<T> reader) {
        this.name = name;
        this.check = check;
        this.reader = reader;
    }

    /** A format with one schema, and one before it whose parts in common are raised; empty for none. */
    static <T extends Record> RecordFormat<T> of(
            String name, String before, String schema, String file, Class<T> type, Check<T> check) {
        return new RecordFormat<>(name, check, (json, said) -> {
            String found = said.find();
            if (before.equals(found) && RecordMapper.read(json, JsonNode.class) instanceof ObjectNode root) {
                OlderParts.raise(root, schema);
                return RecordMapper.MAPPER.treeToValue(root, type);
            }
            if (!schema.equals(found)) {
                throw wrongSchema(
                        name,
                        found == null ? NO_SCHEMA : "\"" + RecordCheck.brief(found) + "\" is not " + schema,
                        "give the " + file + ", or use the Tracksoak that wrote it");
            }
            return RecordMapper.read(json, type);
        });
    }

    static RecordException wrongSchema(String name, String why, String todo) {
        return new RecordException(cannotRead(name), "schema", why, todo);
    }

    static RecordException unknownPart(String part) {
        return new RecordException(
                "the record cannot be read",
                part,
                "records of this version have no such part",
                "the file is damaged or was edited: get it again");
    }

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public String write(T record) {
        String cannot = "the " + name + " cannot be written";
        check.check(record, cannot);
        try {
            return RecordMapper.MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(record) + "\n";
        } catch (JsonProcessingException e) {
            throw new RecordException(cannot, "", e.getOriginalMessage(), "this is a fault of Tracksoak", e);
        }
    }

    /** {@link #write} in UTF-8. */
    public byte[] bytes(T record) {
        return write(record).getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Reads a record.
     *
     * @param json UTF-8, at most {@value #MOST_BYTES} bytes
     * @throws RecordException if it is no such record, damaged, or of a version not known
     */
    public T read(byte[] json) {
        String cannot = cannotRead(name);
        if (json.length > MOST_BYTES) {
            throw new RecordException(
                    cannot, "", "larger than " + MOST_BYTES + " bytes", "is this really a " + name + "?");
        }
        T record;
        try {
            record = reader.read(json, () -> schemaOf(json));
        } catch (JsonProcessingException e) {
            throw damaged(e, cannot);
        } catch (IOException e) {
            throw new RecordException(cannot, "", String.valueOf(e.getMessage()), "get the file again", e);
        }
        check.check(record, cannot);
        return record;
    }

    /**
     * Saves a record; a reader, or a crash, sees the old one or the new one and nothing between. One at a time per file.
     *
     * @throws RecordException if the folder cannot be written
     */
    public void save(Path file, T record) {
        RecordFile.save(file, bytes(record), "the " + name + " cannot be saved");
    }

    private static String cannotRead(String name) {
        return "the " + name + " cannot be read";
    }

    private static @Nullable String schemaOf(byte[] json) throws IOException {
        try (JsonParser parser = new CountedParser(RecordMapper.MAPPER.createParser(json))) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return null;
            }
            while (parser.nextToken() == JsonToken.FIELD_NAME) {
                boolean schema = "schema".equals(parser.currentName());
                JsonToken value = parser.nextToken();
                if (schema) {
                    return value == JsonToken.VALUE_STRING ? parser.getText() : null;
                }
                parser.skipChildren();
            }
            return null;
        }
    }

    private static RecordException damaged(JsonProcessingException e, String cannot) {
        StringBuilder where = new StringBuilder();
        if (e instanceof JsonMappingException bound) {
            for (JsonMappingException.Reference step : bound.getPath()) {
                String name = step.getFieldName();
                where.append(name == null ? "[" + step.getIndex() + "]" : (where.isEmpty() ? "" : ".") + name);
            }
        }
        if (e.getLocation() != null) {
            where.append(where.isEmpty() ? "" : ", ")
                    .append("line ")
                    .append(e.getLocation().getLineNr());
            where.append(" column ").append(e.getLocation().getColumnNr());
        }
        return new RecordException(
                cannot, where.toString(), JsonDamage.words(e), "the file is damaged or was edited: get it again", e);
    }
}

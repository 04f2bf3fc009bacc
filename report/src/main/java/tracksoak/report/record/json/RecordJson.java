package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonMappingException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;

/**
 * Run records as JSON. Reading is strict: unknown, missing, doubled or trailing parts, null where a value must be, and
 * figures out of bounds are errors. What was written reads back equal. Any thread.
 */
public final class RecordJson {

    /** Largest record read, in bytes. */
    public static final int MOST_BYTES = 16 << 20;

    private static final String CANNOT_READ = "the run record cannot be read";
    private static final Pattern VERSION = Pattern.compile("tracksoak/run-record/([1-9][0-9]{0,8})");

    /** One reader per version ever written; an old one turns its own model into today's. */
    private static final Map<Integer, Version> VERSIONS = Map.of(1, RecordJson::versionOne, 2, RecordJson::versionTwo);

    private interface Version {
        RunRecord read(byte[] json) throws IOException;
    }

    private RecordJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(RunRecord record) {
        RecordCheck.check(record, "the run record cannot be written");
        try {
            return RecordMapper.MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(record) + "\n";
        } catch (JsonProcessingException e) {
            throw new RecordException(
                    "the run record cannot be written", "", e.getOriginalMessage(), "this is a fault of Tracksoak", e);
        }
    }

    /** {@link #write} in UTF-8. */
    public static byte[] bytes(RunRecord record) {
        return write(record).getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Reads a record of any version known.
     *
     * @param json UTF-8, at most {@value #MOST_BYTES} bytes
     * @throws RecordException if it is no record, damaged, or of a newer version
     */
    public static RunRecord read(byte[] json) {
        if (json.length > MOST_BYTES) {
            throw new RecordException(
                    CANNOT_READ, "", "larger than " + MOST_BYTES + " bytes", "is this really a run record?");
        }
        RunRecord record;
        try {
            record = version(schemaOf(json)).read(json);
        } catch (JsonProcessingException e) {
            throw damaged(e, CANNOT_READ);
        } catch (IOException e) {
            throw new RecordException(CANNOT_READ, "", String.valueOf(e.getMessage()), "get the file again", e);
        }
        RecordCheck.check(record, CANNOT_READ);
        return record;
    }

    private static RunRecord versionTwo(byte[] json) throws IOException {
        return RecordMapper.MAPPER.readValue(json, RunRecord.class);
    }

    private static RunRecord versionOne(byte[] json) throws IOException {
        return RecordMapper.MAPPER.treeToValue(VersionOne.raised(RecordMapper.MAPPER.readTree(json)), RunRecord.class);
    }

    private static Version version(@Nullable String schema) {
        Matcher matcher = VERSION.matcher(schema == null ? "" : schema);
        if (!matcher.matches()) {
            throw new RecordException(
                    CANNOT_READ,
                    "schema",
                    schema == null ? "there is none" : "\"" + RecordCheck.brief(schema) + "\" is no run record",
                    "give the record.json of a run");
        }
        Version version = VERSIONS.get(Integer.parseInt(matcher.group(1)));
        if (version == null) {
            throw new RecordException(
                    CANNOT_READ,
                    "schema",
                    "version " + matcher.group(1) + " is newer than this program knows (" + VERSIONS.size() + ")",
                    "use the Tracksoak that wrote it, or a newer one");
        }
        return version;
    }

    static @Nullable String schemaOf(byte[] json) throws IOException {
        try (JsonParser parser = RecordMapper.MAPPER.createParser(json)) {
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

    static RecordException damaged(JsonProcessingException e, String cannotRead) {
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
        String why = String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse("damaged");
        return new RecordException(
                cannotRead,
                where.toString(),
                RecordCheck.brief(why),
                "the file is damaged or was edited: get it again",
                e);
    }
}

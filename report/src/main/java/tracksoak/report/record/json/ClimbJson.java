package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.RecordException;

/**
 * Climb records as JSON, in files that are replaced whole. Reading is as strict as for run records. Any thread, one at a
 * time per file.
 */
public final class ClimbJson {

    private static final String CANNOT_READ = "the climb record cannot be read";
    private static final String CANNOT_WRITE = "the climb record cannot be written";

    private ClimbJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(ClimbRecord record) {
        ClimbCheck.check(record, CANNOT_WRITE);
        try {
            return RecordMapper.MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(record) + "\n";
        } catch (JsonProcessingException e) {
            throw new RecordException(CANNOT_WRITE, "", e.getOriginalMessage(), "this is a fault of Tracksoak", e);
        }
    }

    /**
     * Reads a record.
     *
     * @param json UTF-8, at most {@value RecordJson#MOST_BYTES} bytes
     * @throws RecordException if it is no climb record, damaged, or of another version
     */
    public static ClimbRecord read(byte[] json) {
        if (json.length > RecordJson.MOST_BYTES) {
            throw new RecordException(
                    CANNOT_READ, "", "larger than " + RecordJson.MOST_BYTES + " bytes", "is this really one?");
        }
        ClimbRecord record;
        try {
            schema(RecordJson.schemaOf(json));
            record = RecordMapper.MAPPER.readValue(json, ClimbRecord.class);
        } catch (JsonProcessingException e) {
            throw RecordJson.damaged(e, CANNOT_READ);
        } catch (IOException e) {
            throw new RecordException(CANNOT_READ, "", String.valueOf(e.getMessage()), "get the file again", e);
        }
        ClimbCheck.check(record, CANNOT_READ);
        return record;
    }

    /**
     * Saves a record; a reader, or a crash, sees the old one or the new one and nothing between.
     *
     * @throws RecordException if the folder cannot be written
     */
    public static void save(Path file, ClimbRecord record) {
        RecordFile.save(file, write(record).getBytes(StandardCharsets.UTF_8), "the climb record cannot be saved");
    }

    private static void schema(@Nullable String schema) {
        if (!ClimbRecord.SCHEMA.equals(schema)) {
            throw new RecordException(
                    CANNOT_READ,
                    "schema",
                    schema == null
                            ? "there is none"
                            : "\"" + RecordCheck.brief(schema) + "\" is not " + ClimbRecord.SCHEMA,
                    "give the climb.json of a climb, or use the Tracksoak that wrote it");
        }
    }
}

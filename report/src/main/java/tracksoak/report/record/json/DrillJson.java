package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import tracksoak.report.record.facts.DrillRecord;
import tracksoak.report.record.facts.RecordException;

/**
 * Drill records as JSON, as strict as run records. What was written reads back equal. Any thread.
 */
public final class DrillJson {

    /** Largest record read, in bytes. */
    public static final int MOST_BYTES = 16 << 20;

    private static final String CANNOT_READ = "the drill record cannot be read";
    private static final String CANNOT_WRITE = "the drill record cannot be written";

    private DrillJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(DrillRecord record) {
        DrillCheck.check(record, CANNOT_WRITE);
        try {
            return RecordMapper.MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(record) + "\n";
        } catch (JsonProcessingException e) {
            throw new RecordException(CANNOT_WRITE, "", e.getOriginalMessage(), "this is a fault of Tracksoak", e);
        }
    }

    /** {@link #write} in UTF-8. */
    public static byte[] bytes(DrillRecord record) {
        return write(record).getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Reads a record.
     *
     * @param json UTF-8, at most {@value #MOST_BYTES} bytes
     * @throws RecordException if it is no drill record, or damaged
     */
    public static DrillRecord read(byte[] json) {
        if (json.length > MOST_BYTES) {
            throw new RecordException(
                    CANNOT_READ, "", "larger than " + MOST_BYTES + " bytes", "is this really a drill record?");
        }
        DrillRecord record;
        try {
            record = RecordMapper.MAPPER.readValue(json, DrillRecord.class);
        } catch (JsonProcessingException e) {
            String why =
                    String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse("damaged");
            String where = e.getLocation() == null
                    ? ""
                    : "line " + e.getLocation().getLineNr() + " column "
                            + e.getLocation().getColumnNr();
            throw new RecordException(
                    CANNOT_READ, where, RecordCheck.brief(why), "give the drill.json of a drill, undamaged", e);
        } catch (IOException e) {
            throw new RecordException(CANNOT_READ, "", String.valueOf(e.getMessage()), "get the file again", e);
        }
        DrillCheck.check(record, CANNOT_READ);
        return record;
    }
}

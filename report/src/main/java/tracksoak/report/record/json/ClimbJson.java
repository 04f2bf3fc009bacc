package tracksoak.report.record.json;

import java.nio.file.Path;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.RecordException;

/**
 * Climb records as JSON, in files that are replaced whole. Reading is as strict as for run records. Any thread, one at a
 * time per file.
 */
public final class ClimbJson {

    private static final RecordFormat<ClimbRecord> FORMAT = RecordFormat.of(
            "climb record",
            "tracksoak/climb-record/1",
            ClimbRecord.SCHEMA,
            "climb.json of a climb",
            ClimbRecord.class,
            ClimbCheck::check);

    private ClimbJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(ClimbRecord record) {
        return FORMAT.write(record);
    }

    /**
     * Reads a record.
     *
     * @param json UTF-8, at most {@value RecordJson#MOST_BYTES} bytes
     * @throws RecordException if it is no climb record, damaged, or of another version
     */
    public static ClimbRecord read(byte[] json) {
        return FORMAT.read(json);
    }

    /**
     * Saves a record; a reader, or a crash, sees the old one or the new one and nothing between.
     *
     * @throws RecordException if the folder cannot be written
     */
    public static void save(Path file, ClimbRecord record) {
        FORMAT.save(file, record);
    }
}

package tracksoak.report.record.json;

import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.drill.DrillRecord;

/**
 * Drill records as JSON, as strict as run records. What was written reads back equal. Any thread.
 */
public final class DrillJson {

    private static final RecordFormat<DrillRecord> FORMAT = RecordFormat.of(
            "drill record",
            "tracksoak/drill-record/1",
            DrillRecord.SCHEMA,
            "drill.json of a drill",
            DrillRecord.class,
            DrillCheck::check);

    private DrillJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(DrillRecord record) {
        return FORMAT.write(record);
    }

    /** {@link #write} in UTF-8. */
    public static byte[] bytes(DrillRecord record) {
        return FORMAT.bytes(record);
    }

    /**
     * Reads a record.
     *
     * @param json UTF-8, at most {@value RecordJson#MOST_BYTES} bytes
     * @throws RecordException if it is no drill record, damaged, or of another version
     */
    public static DrillRecord read(byte[] json) {
        return FORMAT.read(json);
    }
}

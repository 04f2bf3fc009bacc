package tracksoak.report.record.json;

import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.InspectionRecord;

/** Inspection records as JSON, as strict as run records. What was written reads back equal. Any thread. */
public final class InspectionJson {

    private static final RecordFormat<InspectionRecord> FORMAT = RecordFormat.of(
            "inspection record",
            InspectionRecord.SCHEMA,
            "inspection.json of an inspection",
            InspectionRecord.class,
            InspectionJson::check);

    private InspectionJson() {}

    /**
     * The record as JSON text that ends in a line feed.
     *
     * @throws RecordException if a figure in it is no number or out of bounds: a fault of the caller
     */
    public static String write(InspectionRecord record) {
        return FORMAT.write(record);
    }

    /** {@link #write} in UTF-8. */
    public static byte[] bytes(InspectionRecord record) {
        return FORMAT.bytes(record);
    }

    /**
     * Reads a record.
     *
     * @param json UTF-8, at most {@value RecordJson#MOST_BYTES} bytes
     * @throws RecordException if it is no inspection record, damaged, or of another version
     */
    public static InspectionRecord read(byte[] json) {
        return FORMAT.read(json);
    }

    private static void check(InspectionRecord record, String what) {
        RecordCheck check = RecordCheck.ofParts(record, what);
        check.head(record.schema(), InspectionRecord.SCHEMA, record.id(), record.startedAt(), record.endedAt());
        check.require(
                record.findings().size() <= InspectionRecord.MOST_FINDINGS,
                "findings",
                record.findings().size() + " entries",
                "at most " + InspectionRecord.MOST_FINDINGS);
        for (int i = 0; i < record.takes().size(); i++) {
            InspectedTake take = record.takes().get(i);
            for (int j = 0; j < take.tracks().size(); j++) {
                track("takes[" + i + "].tracks[" + j + "]", take.tracks().get(j), take, check);
            }
        }
    }

    private static void track(String at, InspectedTrack track, InspectedTake take, RecordCheck check) {
        check.require(track.sampleRateHz() >= 1, at + ".sampleRateHz", track.sampleRateHz(), "at least 1");
        check.require(track.splits() >= 1, at + ".splits", track.splits(), "at least 1");
        check.require(
                (long) track.firstFile() + track.splits() <= take.files().size(),
                at + ".firstFile",
                track.firstFile(),
                "a place in the take's " + take.files().size() + " files");
    }
}

package tracksoak.report.record.json;

import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.inspection.InspectionRecord;

/** How the records beside those of runs are written, as strict as those. */
public final class RecordFormats {

    public static final RecordFormat<ClimbRecord> CLIMB = RecordFormat.of(
            "climb record",
            "tracksoak/climb-record/1",
            ClimbRecord.SCHEMA,
            "climb.json of a climb",
            ClimbRecord.class,
            ClimbCheck::check);

    public static final RecordFormat<DrillRecord> DRILL = RecordFormat.of(
            "drill record",
            "tracksoak/drill-record/1",
            DrillRecord.SCHEMA,
            "drill.json of a drill",
            DrillRecord.class,
            DrillCheck::check);

    /** There was no schema before. */
    public static final RecordFormat<InspectionRecord> INSPECTION = RecordFormat.of(
            "inspection record",
            "",
            InspectionRecord.SCHEMA,
            "inspection.json of an inspection",
            InspectionRecord.class,
            InspectionCheck::check);

    private RecordFormats() {}
}

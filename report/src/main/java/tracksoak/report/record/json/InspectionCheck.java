package tracksoak.report.record.json;

import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.InspectionRecord;

/** What every inspection record must hold, whoever made it. */
final class InspectionCheck {

    private InspectionCheck() {}

    /** Throws a {@link RecordException} that begins with {@code what} at the first thing that cannot be. */
    static void check(InspectionRecord record, String what) {
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

package tracksoak.report.record.json;

import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillTrack;

/** What every drill record must hold, whoever made it. */
final class DrillCheck {

    private DrillCheck() {}

    /** Throws a {@link RecordException} that begins with {@code what} at the first thing that cannot be. */
    static void check(DrillRecord record, String what) {
        RecordCheck check = RecordCheck.ofParts(record, what);
        check.head(record.schema(), DrillRecord.SCHEMA, record.id(), record.startedAt(), record.endedAt());
        SessionCheck.check(record.session(), check::require);
        boolean complete = record.state() == DrillRecord.State.COMPLETE;
        check.require(!complete || record.pull() != null, "pull", "null", "a pull, as the drill is complete");
        check.require(!complete || record.back() != null, "back", "null", "a return, as the drill is complete");
        check.require(
                complete == (record.findings() != null),
                "findings",
                record.findings() == null ? "null" : "there",
                "findings in a complete drill and in no other");
        for (int i = 0; i < record.tracks().size(); i++) {
            track("tracks[" + i + "]", record.tracks().get(i), complete, check);
        }
    }

    private static void track(String at, DrillTrack track, boolean complete, RecordCheck check) {
        check.require(track.bytesPerSecond() >= 1, at + ".bytesPerSecond", track.bytesPerSecond(), "at least 1");
        check.require(
                track.flushedBytes() <= track.writtenBytes(),
                at + ".flushedBytes",
                track.flushedBytes(),
                "at most what was written, " + track.writtenBytes());
        check.require(
                track.droppedBytes() <= track.producedBytes(),
                at + ".droppedBytes",
                track.droppedBytes(),
                "at most what was produced, " + track.producedBytes());
        boolean read = track.readableBytes() != null && track.laterBytes() != null;
        check.require(read || !complete, at + ".readableBytes", "null", "a figure, as the drill is complete");
    }
}

package tracksoak.report.record.facts.drill;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.RecordParts;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.MethodFacts;
import tracksoak.report.record.facts.Seed;

/**
 * The immutable record of one unplug drill: what was recorded when the drive was pulled, and what could be read after it
 * was plugged in again. It is no run record and judges no drive.
 *
 * @param schema {@code tracksoak/drill-record/2}
 * @param id UUIDv7
 * @param tool name and version of the bench
 * @param startedAt ISO-8601 instant in UTC
 * @param endedAt ISO-8601 instant in UTC, null while the drill goes on
 * @param state how far the drill came
 * @param stateReason why it did not complete, empty where it did
 * @param seed seed of the payload
 * @param session what was recorded
 * @param drive the drive before it was pulled
 * @param host the computer
 * @param method how it was written
 * @param stopFirst the short take that was stopped and closed before, null if the drill did not come so far
 * @param pull how the drive went, null before it did
 * @param back how it came back, null before it did
 * @param tracks one per stream of the take that was cut off, in order; empty before the pull
 * @param files every file of both takes; empty before the drive came back
 * @param findings what it comes to, null before the drive was read
 */
public record DrillRecord(
        String schema,
        String id,
        String tool,
        String startedAt,
        @Nullable String endedAt,
        State state,
        String stateReason,
        Seed seed,
        Session session,
        DriveFacts drive,
        HostFacts host,
        MethodFacts method,
        @Nullable DrillStop stopFirst,
        @Nullable DrillPull pull,
        @Nullable DrillReturn back,
        List<DrillTrack> tracks,
        List<DrillFile> files,
        @Nullable DrillFindings findings) {

    /** The schema written today. */
    public static final String SCHEMA = "tracksoak/drill-record/2";

    /** How far a drill came. */
    public enum State {
        /** It goes on, or was cut off without a word. */
        RUNNING,
        /** All that survived was read. */
        COMPLETE,
        /** Nobody pulled the drive in time. */
        NOT_PULLED,
        /** The drive failed, or was pulled when it was not asked for. */
        FAILED,
        /** The drive did not come back in time, or without the drill's folder. */
        NOT_BACK,
        /** A person ended it. */
        INTERRUPTED
    }

    public DrillRecord {
        tracks = List.copyOf(tracks);
        files = List.copyOf(files);
    }

    /** The same drill with what it comes to. */
    public DrillRecord withFindings(DrillFindings newFindings) {
        return RecordParts.of(this).with("findings", newFindings).make();
    }
}

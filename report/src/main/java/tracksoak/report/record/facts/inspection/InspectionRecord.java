package tracksoak.report.record.facts.inspection;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Verdict;

/**
 * The immutable record of one inspection: what a recorder left, and what is wrong with it. It judges a recording, no drive.
 *
 * @param schema {@code tracksoak/inspection-record/1}
 * @param id UUIDv7
 * @param tool name and version of the bench
 * @param startedAt ISO-8601 instant in UTC
 * @param endedAt ISO-8601 instant in UTC
 * @param place last name of the path that was looked at
 * @param bytesRead bytes of samples that were read
 * @param otherFiles files beside the recordings that were not looked into
 * @param outcome PASS, FAIL or NO_VERDICT
 * @param sentence one plain sentence
 * @param scope what the verdict covers
 * @param advice what to do now
 * @param reasons why there is no verdict, one sentence each; empty otherwise
 * @param volume the file system by its tables; null where they could not be read
 * @param takes in the order of their names
 * @param findings the weightiest first; at most {@value #MOST_FINDINGS}
 * @param moreFindings how many there are besides
 * @param session the session that the recording implies, value by value; empty where none was asked for
 */
public record InspectionRecord(
        String schema,
        String id,
        String tool,
        String startedAt,
        String endedAt,
        String place,
        long bytesRead,
        long otherFiles,
        Verdict.Outcome outcome,
        String sentence,
        String scope,
        String advice,
        List<String> reasons,
        @Nullable VolumeSeen volume,
        List<InspectedTake> takes,
        List<Finding> findings,
        long moreFindings,
        List<ImpliedValue> session) {

    /** The schema written today. */
    public static final String SCHEMA = "tracksoak/inspection-record/1";

    /** So many findings are told one by one. */
    public static final int MOST_FINDINGS = 2000;

    public InspectionRecord {
        reasons = List.copyOf(reasons);
        takes = List.copyOf(takes);
        findings = List.copyOf(findings);
        session = List.copyOf(session);
    }

    /** Tracks of all takes. */
    public int tracks() {
        return takes.stream().mapToInt(take -> take.tracks().size()).sum();
    }
}

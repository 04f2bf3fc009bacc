package tracksoak.report.roster.standing;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;

/**
 * A record that counts for the standing: a full PASS, or a FAIL.
 *
 * @param pass PASS or FAIL
 * @param atMs when the run ended, in ms since 1970
 * @param sessionId names its session, see {@link RecordedSession}
 * @param all for a PASS: the whole capacity and the session's whole length were proven; for a FAIL: it ends trust for every session
 * @param ref name of the event that entered the record
 * @param runId of the run, of which there may be more than one record
 * @param paceMs how long the drive was written, or played, at the session's pace, in ms
 * @param provenBytes bytes written and read back as they were
 */
@JsonFormat(shape = JsonFormat.Shape.ARRAY)
@JsonPropertyOrder({"pass", "atMs", "sessionId", "all", "ref", "runId", "paceMs", "provenBytes"})
public record Mark(
        boolean pass,
        long atMs,
        String sessionId,
        boolean all,
        String ref,
        String runId,
        long paceMs,
        long provenBytes) {}

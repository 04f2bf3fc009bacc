package tracksoak.report.roster.standing;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;

/**
 * A record that counts for the standing: a PASS that makes trusted, or a FAIL.
 *
 * @param pass PASS or FAIL
 * @param atMs when the run ended, in ms since 1970
 * @param sessionId names its session, see {@link RecordedSession}
 * @param all for a PASS: the whole capacity was proven; for a FAIL: it ends trust for every session
 * @param ref name of the event that entered the record
 */
@JsonFormat(shape = JsonFormat.Shape.ARRAY)
@JsonPropertyOrder({"pass", "atMs", "sessionId", "all", "ref"})
public record Mark(boolean pass, long atMs, String sessionId, boolean all, String ref) {}

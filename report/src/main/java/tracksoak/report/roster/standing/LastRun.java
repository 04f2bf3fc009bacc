package tracksoak.report.roster.standing;

import tracksoak.report.record.facts.Verdict;

/**
 * The latest record of a drive, as far as lists tell of it.
 *
 * @param endedAtMs when the run ended, in ms since 1970
 * @param outcome PASS, FAIL or NO_VERDICT, as it was judged again
 * @param sessionId names the session with all it says, see {@link RecordedSession}
 * @param session the session's name
 */
public record LastRun(long endedAtMs, Verdict.Outcome outcome, String sessionId, String session) {}

package tracksoak.report.record.facts;

/**
 * Single blocks laid over all the free room, so that a drive with less room than it claims is found without filling it.
 *
 * @param placed blocks laid
 * @param spanBytes room they are spread over, in bytes
 * @param refused why none were laid, empty where they were
 */
public record ProbeFacts(long placed, long spanBytes, String refused) {}

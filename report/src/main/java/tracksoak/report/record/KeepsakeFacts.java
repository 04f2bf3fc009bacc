package tracksoak.report.record;

/**
 * Stamped files that an earlier run left on the drive, so that a later one can show what was kept.
 *
 * @param runId the run that wrote them
 * @param writtenAt ISO-8601 instant in UTC at which they were written
 * @param days how long they lay on the drive, in days of 86,400 s by the computers' clocks
 * @param bytes their size in bytes
 */
public record KeepsakeFacts(String runId, String writtenAt, double days, long bytes) {}

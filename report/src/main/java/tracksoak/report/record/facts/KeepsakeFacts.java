package tracksoak.report.record.facts;

/**
 * Stamped files that an earlier run left on the drive, so that a later one can show what was kept. Their blocks are
 * counted in the phase's {@link ReadBackFacts}; those of files that are not there any more are not among them.
 *
 * @param runId the run that wrote them
 * @param writtenAt ISO-8601 instant in UTC at which they were written
 * @param days how long they lay on the drive, in days of 86,400 s by the computers' clocks
 * @param bytes size they should have, in bytes
 * @param files how many there should be
 * @param filesGone how many of them are not there any more, as after deleting or formatting; all, if the folder is gone
 * @param known whether this computer's own list of them was at hand; without it only what lies on the drive can be
 *     checked, and a file that is gone is not missed
 */
public record KeepsakeFacts(
        String runId, String writtenAt, double days, long bytes, int files, int filesGone, boolean known) {}

package tracksoak.report.record.facts;

/**
 * A take for which the drive had too little room: it deleted its own oldest files as it went. What was deleted cannot be
 * read back any more.
 *
 * @param roomBytes room the take had, in bytes
 * @param deletedFiles files deleted while it went on
 * @param deletedBytes their size in bytes
 * @param deletingMs time that took, in ms; it counts as the bench's own delay, not as the drive's
 */
public record RoundsFacts(long roomBytes, long deletedFiles, long deletedBytes, double deletingMs) {}

package tracksoak.report.record.facts;

/**
 * From plug-in to usable, seen by a run that waited for the drive.
 *
 * @param appearedS from the start of waiting to the first sign of the drive, in s
 * @param mountedS from that sign to its file system being mounted, in s
 * @param usableS from that sign to the first file written and flushed, in s
 * @param deviceSeen whether that sign was the device itself; if not, it was the mount, and what came before is not known
 */
public record ReadyFacts(double appearedS, double mountedS, double usableS, boolean deviceSeen) {}

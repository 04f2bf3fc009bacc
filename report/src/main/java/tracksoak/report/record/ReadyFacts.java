package tracksoak.report.record;

/**
 * From plug-in to usable, seen by a run that waited for the drive.
 *
 * @param appearedS from the start of waiting to the device's appearance, in s
 * @param usableS from its appearance to the first file written and flushed, in s
 */
public record ReadyFacts(double appearedS, double usableS) {}

package tracksoak.report.record.facts;

/**
 * The device's own byte counters, after − before the phase. Absent (null) where the system has none.
 *
 * @param bytesWritten bytes the device took
 * @param bytesRead bytes the device gave
 * @param payloadBytes bytes the phase wrote (or read) itself
 */
public record DeviceEvidence(long bytesWritten, long bytesRead, long payloadBytes) {}

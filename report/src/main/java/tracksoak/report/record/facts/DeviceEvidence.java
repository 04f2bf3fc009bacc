package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * The device's own counters, after − before the phase. Absent (null) where the system has none.
 *
 * @param bytesWritten bytes the device took
 * @param bytesRead bytes the device gave
 * @param payloadBytes bytes the phase wrote (or read) itself
 * @param busyMs time in which the device had work at most, in ms; null where the system does not tell
 * @param otherBusBytes what other drives behind the same USB controller took and gave meanwhile, in bytes; null where the
 *     drive is on no USB bus or the system does not tell
 */
public record DeviceEvidence(
        long bytesWritten,
        long bytesRead,
        long payloadBytes,
        @Nullable Double busyMs,
        @Nullable Long otherBusBytes) {

    /** Bytes alone. */
    public DeviceEvidence(long bytesWritten, long bytesRead, long payloadBytes) {
        this(bytesWritten, bytesRead, payloadBytes, null, null);
    }
}

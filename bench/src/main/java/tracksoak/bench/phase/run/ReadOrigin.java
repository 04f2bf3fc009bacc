package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.ReadBackFacts.Origin;

/** Where bytes that were read came from, by the device's own counters. */
public final class ReadOrigin {

    /** Less than this part of the bytes read by the device itself: they came from the host's memory. */
    private static final double LEAST_FROM_DEVICE = 0.9;

    private ReadOrigin() {}

    static Origin origin(Bench bench, @Nullable DeviceEvidence evidence, long bytes) {
        return of(bench.drive.ioMode(), evidence == null ? null : evidence.bytesRead(), bytes);
    }

    /**
     * Where they came from.
     *
     * @param fromDevice bytes that the device itself read, null where that is not known
     */
    public static Origin of(IoMode mode, @Nullable Long fromDevice, long bytes) {
        if (mode == IoMode.SIMULATED) {
            return Origin.DEVICE;
        }
        if (fromDevice == null) {
            return Origin.UNKNOWN;
        }
        return fromDevice >= LEAST_FROM_DEVICE * bytes ? Origin.DEVICE : Origin.HOST_MEMORY;
    }
}

package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.ReadBackFacts.Origin;

/** Where bytes that were read came from, by the device's own counters. */
final class ReadOrigin {

    /** Less than this part of the bytes read by the device itself: they came from the host's memory. */
    private static final double LEAST_FROM_DEVICE = 0.9;

    private ReadOrigin() {}

    static Origin origin(Bench bench, @Nullable DeviceEvidence evidence, long bytes) {
        if (bench.drive.ioMode() == IoMode.SIMULATED) {
            return Origin.DEVICE;
        }
        if (evidence == null) {
            return Origin.UNKNOWN;
        }
        return evidence.bytesRead() >= LEAST_FROM_DEVICE * bytes ? Origin.DEVICE : Origin.HOST_MEMORY;
    }
}

package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * How the run measured.
 *
 * @param ioMode how writes reach the drive
 * @param ioReason why this mode and not direct I/O, empty for direct
 * @param alignmentBytes unit that positions and lengths must be multiples of
 * @param chunkBytes the chunk really written, after rounding up to the alignment
 * @param hangLimitS a call that has not come back after this long is given up, in s
 * @param canaryMs interval at which the host's own delays are sampled, in ms
 * @param probes single blocks laid over all the free room; null where the plan lays none
 */
public record MethodFacts(
        IoMode ioMode,
        String ioReason,
        int alignmentBytes,
        int chunkBytes,
        double hangLimitS,
        double canaryMs,
        @Nullable ProbeFacts probes) {}

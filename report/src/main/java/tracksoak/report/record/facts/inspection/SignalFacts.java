package tracksoak.report.record.facts.inspection;

/**
 * What the test signal shows of a track.
 *
 * @param frames frames of it that were read
 * @param exact whether every sample could be compared; else the track came through something analogue or was resampled
 * @param fromS where in the take it begins, in s
 * @param untilS where it ends, in s
 * @param clockPpm how much faster the track's clock counts than the signal's, in millionths
 * @param breaks places where it is not as it should be
 */
public record SignalFacts(long frames, boolean exact, double fromS, double untilS, double clockPpm, long breaks) {}

package tracksoak.report.record.facts.inspection;

import org.jspecify.annotations.Nullable;

/**
 * A track of a take.
 *
 * @param name by its files
 * @param sampleRateHz samples per second
 * @param bytesPerSample of the track alone
 * @param isFloat whether samples are floating-point numbers
 * @param sharesFiles how many tracks lie in the same files, at least 1
 * @param samples how many there are of it
 * @param firstFile place of its first file in the take's list
 * @param splits how many files it has
 * @param silent whether it holds nothing but zeros
 * @param signal what the test signal shows of it; null where it carries none
 */
public record InspectedTrack(
        String name,
        int sampleRateHz,
        int bytesPerSample,
        boolean isFloat,
        int sharesFiles,
        long samples,
        int firstFile,
        int splits,
        boolean silent,
        @Nullable SignalFacts signal) {

    /** Length in s. */
    public double seconds() {
        return (double) samples / sampleRateHz;
    }
}

package tracksoak.bench.standin.learn;

import java.util.List;
import java.util.OptionalDouble;

/**
 * How much a recorder holds, as far as the stops of a drive have shown.
 *
 * @param heldS largest backlog that was held without loss and is below every one that was not, in s of audio per track; empty where
 *     none was
 * @param heldTimes how many stops were held with about that backlog
 * @param lostS smallest backlog at which audio was lost, in s; empty where none was
 * @param onOverrun what the recorder did then, in words, for a sentence; empty where it lost none
 * @param tracksHit on average which part of the files lost audio, where files show it, 0 to 1; NaN where none does
 * @param chunkS how long a chunk takes to fill: the buffer is known to within that at best, in s
 * @param tried every stop
 * @param traceSha256 of the trace, in hexadecimal digits
 * @param startEpochMs when the trace began, in ms since 1970
 */
public record BufferFound(
        OptionalDouble heldS,
        int heldTimes,
        OptionalDouble lostS,
        String onOverrun,
        double tracksHit,
        double chunkS,
        List<Tried> tried,
        String traceSha256,
        long startEpochMs) {

    public BufferFound {
        tried = List.copyOf(tried);
    }

    /**
     * Whether that is a measured buffer. Where no loss was seen, a recorder that puts silence in the place of lost audio may have lost some
     * all the same, unless its recording or a person tells otherwise: its writes do not show it.
     */
    public boolean measured() {
        return heldS.isPresent()
                && (lostS.isPresent()
                        || tried.stream()
                                .anyMatch(one -> one.backlogS() >= heldS.getAsDouble()
                                        && !one.by().equals(BufferReader.TRACE)));
    }
}

package tracksoak.bench.standin.learn;

import java.util.List;
import java.util.OptionalDouble;

/**
 * How much a recorder holds, as far as the stops of a drive have shown.
 *
 * @param heldS what was held in any case, in s of audio per track: the largest backlog without loss that is below every one that was
 *     not or may not have been held, less what may have been lost unseen; whole ms; empty where nothing was
 * @param unseenS less lost audio than that on a track would not have been seen then, in s; 0 where the recording tells
 * @param heldTimes how many stops were held with about that backlog
 * @param lostS smallest backlog at which audio was lost, in s; empty where none was
 * @param doubtS smallest backlog of which that cannot be told, in s; empty where there was none
 * @param onOverrun what the recorder did then, in words, for a sentence; empty where it lost none
 * @param tracksHit on average which part of the files lost audio, where files show it, 0 to 1; NaN where none does
 * @param chunkS how long a chunk takes to fill: the buffer is known to within that at best, in s
 * @param tried every stop
 * @param traceSha256 of the trace, in hexadecimal digits
 * @param startEpochMs when the trace began, in ms since 1970
 */
public record BufferFound(
        OptionalDouble heldS,
        double unseenS,
        int heldTimes,
        OptionalDouble lostS,
        OptionalDouble doubtS,
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
     * Whether that is a measured buffer. One stop after which all tracks together fell short may be chance, two are none. Where no loss was seen, a recorder that puts silence in the place of lost audio may have lost some
     * all the same, unless its recording or a person tells otherwise: its writes do not show it.
     */
    public boolean measured() {
        return heldS.isPresent()
                && (lostS.isPresent()
                        || tried.stream().filter(Tried::doubtful).count() >= 2
                        || tried.stream()
                                .anyMatch(one -> one.backlogS() >= heldS.getAsDouble()
                                        && !one.by().equals(BufferReader.TRACE)));
    }
}

package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The mix written while tracks are read.
 *
 * @param bytes written, in bytes
 * @param lostMs audio of the mix lost on its worst track, in ms
 * @param tracksHit tracks of the mix that lost audio
 * @param peakBacklogMs largest backlog of the mix just before a chunk was done, in ms of audio
 * @param peakBacklogHostMs delay of the host inside the wait that made the peak, in ms
 * @param overruns runs of lost chunks, at most {@value PhaseFacts#MOST_LISTED}, in order of time
 * @param service done − called, per chunk of the mix
 */
public record MixFacts(
        long bytes,
        double lostMs,
        int tracksHit,
        double peakBacklogMs,
        double peakBacklogHostMs,
        List<Overrun> overruns,
        @Nullable Latency service) {

    public MixFacts {
        overruns = List.copyOf(overruns);
    }
}

package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one phase measured. Parts that a kind of phase does not have are null or empty.
 *
 * @param kind the kind of phase
 * @param startedAt ISO-8601 instant in UTC
 * @param seconds how long the phase took, in s
 * @param plannedSeconds how long it was to take, in s; 0 where it ends by itself
 * @param complete whether it ran to its own end
 * @param bytes bytes written (read, for read-back and playback)
 * @param operations write (or read) calls that came back
 * @param lostMs audio lost on the worst track, in ms
 * @param lostTrackMs audio lost, summed over all tracks, in ms
 * @param tracksHit tracks that lost audio
 * @param peakBacklogMs largest backlog of any stream just before a chunk was done, in ms of audio
 * @param peakBacklogAtS when, in s from the start of the phase
 * @param peakBacklogHostMs delay of the host inside the wait that made the peak, in ms
 * @param busyFraction part of the time spent inside write, flush and file calls, 0…1
 * @param stallCount stalls seen, also those not listed
 * @param stallTotalMs their total in ms
 * @param stalls the longest stalls, at most {@value #MOST_LISTED}, in order of time
 * @param overruns runs of lost chunks, at most {@value #MOST_LISTED}, in order of time
 * @param service done − called, per chunk
 * @param response done − ready, per chunk
 * @param flush time of each flush and each change to the next file
 * @param series one entry per second
 * @param streams per stream totals
 * @param rounds how a take made do with too little room, null where it had enough
 * @param fill what a fill found, or a copy
 * @param close what a close found
 * @param readBack what a read-back found
 * @param playback what reading at session rate found
 * @param keepsake whose old files a read-back of the keepsake read
 * @param device what the device's own counters say
 * @param hostDelays what the host did meanwhile
 * @param fault what ended the phase early
 */
public record PhaseFacts(
        PhaseKind kind,
        String startedAt,
        double seconds,
        double plannedSeconds,
        boolean complete,
        long bytes,
        long operations,
        double lostMs,
        double lostTrackMs,
        int tracksHit,
        double peakBacklogMs,
        double peakBacklogAtS,
        double peakBacklogHostMs,
        double busyFraction,
        long stallCount,
        double stallTotalMs,
        List<Stall> stalls,
        List<Overrun> overruns,
        @Nullable Latency service,
        @Nullable Latency response,
        @Nullable Latency flush,
        @Nullable Series series,
        @Nullable StreamTotals streams,
        @Nullable RoundsFacts rounds,
        @Nullable FillFacts fill,
        @Nullable CloseFacts close,
        @Nullable ReadBackFacts readBack,
        @Nullable PlaybackFacts playback,
        @Nullable KeepsakeFacts keepsake,
        @Nullable DeviceEvidence device,
        @Nullable HostDelays hostDelays,
        @Nullable Fault fault) {

    /** Most stalls and overruns listed one by one. */
    public static final int MOST_LISTED = 500;

    public PhaseFacts {
        stalls = List.copyOf(stalls);
        overruns = List.copyOf(overruns);
    }
}

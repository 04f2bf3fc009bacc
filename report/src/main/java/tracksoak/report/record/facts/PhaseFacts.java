package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.RecordParts;

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
 * @param start how a take began, null for anything else
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
        @Nullable StartFacts start,
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

    /** How long the call had been out at which a person ended the phase, in s; 0 where none was. */
    public double unansweredS() {
        return fault == null || fault.kind() != Fault.Kind.UNANSWERED ? 0 : Math.max(0, seconds - fault.atS());
    }

    /** Starts what one phase measured. What is not said stays null, 0, false or empty. */
    public static Builder builder(PhaseKind kind, String startedAt) {
        return new Builder(RecordParts.empty(PhaseFacts.class))
                .with("kind", kind)
                .with("startedAt", startedAt);
    }

    /** Starts from these. */
    public Builder but() {
        return new Builder(RecordParts.of(this));
    }

    /** Collects the parts by name; one thread. */
    public static final class Builder {

        private final RecordParts<PhaseFacts> parts;

        private Builder(RecordParts<PhaseFacts> parts) {
            this.parts = parts;
        }

        private Builder with(String part, @Nullable Object value) {
            parts.with(part, value);
            return this;
        }

        public Builder seconds(double seconds) {
            return with("seconds", seconds);
        }

        public Builder plannedSeconds(double plannedSeconds) {
            return with("plannedSeconds", plannedSeconds);
        }

        public Builder complete(boolean complete) {
            return with("complete", complete);
        }

        public Builder bytes(long bytes) {
            return with("bytes", bytes);
        }

        public Builder operations(long operations) {
            return with("operations", operations);
        }

        public Builder lostMs(double lostMs) {
            return with("lostMs", lostMs);
        }

        public Builder lostTrackMs(double lostTrackMs) {
            return with("lostTrackMs", lostTrackMs);
        }

        public Builder tracksHit(int tracksHit) {
            return with("tracksHit", tracksHit);
        }

        public Builder peakBacklogMs(double peakBacklogMs) {
            return with("peakBacklogMs", peakBacklogMs);
        }

        public Builder peakBacklogAtS(double peakBacklogAtS) {
            return with("peakBacklogAtS", peakBacklogAtS);
        }

        public Builder peakBacklogHostMs(double peakBacklogHostMs) {
            return with("peakBacklogHostMs", peakBacklogHostMs);
        }

        public Builder busyFraction(double busyFraction) {
            return with("busyFraction", busyFraction);
        }

        public Builder stallCount(long stallCount) {
            return with("stallCount", stallCount);
        }

        public Builder stallTotalMs(double stallTotalMs) {
            return with("stallTotalMs", stallTotalMs);
        }

        public Builder stalls(List<Stall> stalls) {
            return with("stalls", stalls);
        }

        public Builder overruns(List<Overrun> overruns) {
            return with("overruns", overruns);
        }

        public Builder service(@Nullable Latency service) {
            return with("service", service);
        }

        public Builder response(@Nullable Latency response) {
            return with("response", response);
        }

        public Builder flush(@Nullable Latency flush) {
            return with("flush", flush);
        }

        public Builder series(@Nullable Series series) {
            return with("series", series);
        }

        public Builder streams(@Nullable StreamTotals streams) {
            return with("streams", streams);
        }

        public Builder start(@Nullable StartFacts start) {
            return with("start", start);
        }

        public Builder rounds(@Nullable RoundsFacts rounds) {
            return with("rounds", rounds);
        }

        public Builder fill(@Nullable FillFacts fill) {
            return with("fill", fill);
        }

        public Builder close(@Nullable CloseFacts close) {
            return with("close", close);
        }

        public Builder readBack(@Nullable ReadBackFacts readBack) {
            return with("readBack", readBack);
        }

        public Builder playback(@Nullable PlaybackFacts playback) {
            return with("playback", playback);
        }

        public Builder keepsake(@Nullable KeepsakeFacts keepsake) {
            return with("keepsake", keepsake);
        }

        public Builder device(@Nullable DeviceEvidence device) {
            return with("device", device);
        }

        public Builder hostDelays(@Nullable HostDelays hostDelays) {
            return with("hostDelays", hostDelays);
        }

        public Builder fault(@Nullable Fault fault) {
            return with("fault", fault);
        }

        /** The facts. */
        public PhaseFacts build() {
            return parts.make();
        }
    }
}

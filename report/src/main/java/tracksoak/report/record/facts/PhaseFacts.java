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
        return new Builder(kind, startedAt);
    }

    /** Starts from these. */
    public Builder but() {
        Builder builder = new Builder(kind, startedAt);
        builder.seconds = seconds;
        builder.plannedSeconds = plannedSeconds;
        builder.complete = complete;
        builder.bytes = bytes;
        builder.operations = operations;
        builder.lostMs = lostMs;
        builder.lostTrackMs = lostTrackMs;
        builder.tracksHit = tracksHit;
        builder.peakBacklogMs = peakBacklogMs;
        builder.peakBacklogAtS = peakBacklogAtS;
        builder.peakBacklogHostMs = peakBacklogHostMs;
        builder.busyFraction = busyFraction;
        builder.stallCount = stallCount;
        builder.stallTotalMs = stallTotalMs;
        builder.stalls = stalls;
        builder.overruns = overruns;
        builder.service = service;
        builder.response = response;
        builder.flush = flush;
        builder.series = series;
        builder.streams = streams;
        builder.start = start;
        builder.rounds = rounds;
        builder.fill = fill;
        builder.close = close;
        builder.readBack = readBack;
        builder.playback = playback;
        builder.keepsake = keepsake;
        builder.device = device;
        builder.hostDelays = hostDelays;
        builder.fault = fault;
        return builder;
    }

    /** Collects the parts by name; one thread. */
    public static final class Builder {

        private final PhaseKind kind;
        private final String startedAt;
        private double seconds;
        private double plannedSeconds;
        private boolean complete;
        private long bytes;
        private long operations;
        private double lostMs;
        private double lostTrackMs;
        private int tracksHit;
        private double peakBacklogMs;
        private double peakBacklogAtS;
        private double peakBacklogHostMs;
        private double busyFraction;
        private long stallCount;
        private double stallTotalMs;
        private List<Stall> stalls = List.of();
        private List<Overrun> overruns = List.of();
        private @Nullable Latency service;
        private @Nullable Latency response;
        private @Nullable Latency flush;
        private @Nullable Series series;
        private @Nullable StreamTotals streams;
        private @Nullable StartFacts start;
        private @Nullable RoundsFacts rounds;
        private @Nullable FillFacts fill;
        private @Nullable CloseFacts close;
        private @Nullable ReadBackFacts readBack;
        private @Nullable PlaybackFacts playback;
        private @Nullable KeepsakeFacts keepsake;
        private @Nullable DeviceEvidence device;
        private @Nullable HostDelays hostDelays;
        private @Nullable Fault fault;

        private Builder(PhaseKind kind, String startedAt) {
            this.kind = kind;
            this.startedAt = startedAt;
        }

        public Builder seconds(double newSeconds) {
            seconds = newSeconds;
            return this;
        }

        public Builder plannedSeconds(double newPlannedSeconds) {
            plannedSeconds = newPlannedSeconds;
            return this;
        }

        public Builder complete(boolean newComplete) {
            complete = newComplete;
            return this;
        }

        public Builder bytes(long newBytes) {
            bytes = newBytes;
            return this;
        }

        public Builder operations(long newOperations) {
            operations = newOperations;
            return this;
        }

        public Builder lostMs(double newLostMs) {
            lostMs = newLostMs;
            return this;
        }

        public Builder lostTrackMs(double newLostTrackMs) {
            lostTrackMs = newLostTrackMs;
            return this;
        }

        public Builder tracksHit(int newTracksHit) {
            tracksHit = newTracksHit;
            return this;
        }

        public Builder peakBacklogMs(double newPeakBacklogMs) {
            peakBacklogMs = newPeakBacklogMs;
            return this;
        }

        public Builder peakBacklogAtS(double newPeakBacklogAtS) {
            peakBacklogAtS = newPeakBacklogAtS;
            return this;
        }

        public Builder peakBacklogHostMs(double newPeakBacklogHostMs) {
            peakBacklogHostMs = newPeakBacklogHostMs;
            return this;
        }

        public Builder busyFraction(double newBusyFraction) {
            busyFraction = newBusyFraction;
            return this;
        }

        public Builder stallCount(long newStallCount) {
            stallCount = newStallCount;
            return this;
        }

        public Builder stallTotalMs(double newStallTotalMs) {
            stallTotalMs = newStallTotalMs;
            return this;
        }

        public Builder stalls(List<Stall> newStalls) {
            stalls = newStalls;
            return this;
        }

        public Builder overruns(List<Overrun> newOverruns) {
            overruns = newOverruns;
            return this;
        }

        public Builder service(@Nullable Latency newService) {
            service = newService;
            return this;
        }

        public Builder response(@Nullable Latency newResponse) {
            response = newResponse;
            return this;
        }

        public Builder flush(@Nullable Latency newFlush) {
            flush = newFlush;
            return this;
        }

        public Builder series(@Nullable Series newSeries) {
            series = newSeries;
            return this;
        }

        public Builder streams(@Nullable StreamTotals newStreams) {
            streams = newStreams;
            return this;
        }

        public Builder start(@Nullable StartFacts newStart) {
            start = newStart;
            return this;
        }

        public Builder rounds(@Nullable RoundsFacts newRounds) {
            rounds = newRounds;
            return this;
        }

        public Builder fill(@Nullable FillFacts newFill) {
            fill = newFill;
            return this;
        }

        public Builder close(@Nullable CloseFacts newClose) {
            close = newClose;
            return this;
        }

        public Builder readBack(@Nullable ReadBackFacts newReadBack) {
            readBack = newReadBack;
            return this;
        }

        public Builder playback(@Nullable PlaybackFacts newPlayback) {
            playback = newPlayback;
            return this;
        }

        public Builder keepsake(@Nullable KeepsakeFacts newKeepsake) {
            keepsake = newKeepsake;
            return this;
        }

        public Builder device(@Nullable DeviceEvidence newDevice) {
            device = newDevice;
            return this;
        }

        public Builder hostDelays(@Nullable HostDelays newHostDelays) {
            hostDelays = newHostDelays;
            return this;
        }

        public Builder fault(@Nullable Fault newFault) {
            fault = newFault;
            return this;
        }

        /** The facts. */
        public PhaseFacts build() {
            return new PhaseFacts(
                    kind,
                    startedAt,
                    seconds,
                    plannedSeconds,
                    complete,
                    bytes,
                    operations,
                    lostMs,
                    lostTrackMs,
                    tracksHit,
                    peakBacklogMs,
                    peakBacklogAtS,
                    peakBacklogHostMs,
                    busyFraction,
                    stallCount,
                    stallTotalMs,
                    stalls,
                    overruns,
                    service,
                    response,
                    flush,
                    series,
                    streams,
                    start,
                    rounds,
                    fill,
                    close,
                    readBack,
                    playback,
                    keepsake,
                    device,
                    hostDelays,
                    fault);
        }
    }
}

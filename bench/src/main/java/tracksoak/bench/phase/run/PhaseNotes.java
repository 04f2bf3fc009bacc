package tracksoak.bench.phase.run;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.Latency;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StartFacts;
import tracksoak.report.record.facts.StreamTotals;

/** The sheet a phase fills in as it goes; {@link #facts} makes the immutable record of it. One thread. */
public final class PhaseNotes {

    final PhaseKind kind;
    final String startedAt;
    double seconds;
    double plannedSeconds;
    boolean complete;
    long bytes;
    long operations;
    double lostMs;
    double lostTrackMs;
    int tracksHit;
    double peakBacklogMs;
    double peakBacklogAtS;
    double peakBacklogHostMs;
    double busyFraction;
    long stallCount;
    double stallTotalMs;
    List<Stall> stalls = List.of();
    List<Overrun> overruns = List.of();

    @Nullable
    Latency service;

    @Nullable
    Latency response;

    @Nullable
    Latency flush;

    @Nullable
    Series series;

    @Nullable
    StreamTotals streams;

    @Nullable
    StartFacts start;

    @Nullable
    RoundsFacts rounds;

    @Nullable
    FillFacts fill;

    @Nullable
    CloseFacts close;

    @Nullable
    ReadBackFacts readBack;

    @Nullable
    PlaybackFacts playback;

    @Nullable
    KeepsakeFacts keepsake;

    @Nullable
    DeviceEvidence device;

    @Nullable
    HostDelays hostDelays;

    @Nullable
    Fault fault;

    public PhaseNotes(PhaseKind kind, String startedAt) {
        this.kind = kind;
        this.startedAt = startedAt;
    }

    public PhaseFacts facts() {
        return PhaseFacts.builder(kind, startedAt)
                .seconds(seconds)
                .plannedSeconds(plannedSeconds)
                .complete(complete)
                .bytes(bytes)
                .operations(operations)
                .lostMs(lostMs)
                .lostTrackMs(lostTrackMs)
                .tracksHit(tracksHit)
                .peakBacklogMs(peakBacklogMs)
                .peakBacklogAtS(peakBacklogAtS)
                .peakBacklogHostMs(peakBacklogHostMs)
                .busyFraction(busyFraction)
                .stallCount(stallCount)
                .stallTotalMs(stallTotalMs)
                .stalls(stalls)
                .overruns(overruns)
                .service(service)
                .response(response)
                .flush(flush)
                .series(series)
                .streams(streams)
                .start(start)
                .rounds(rounds)
                .fill(fill)
                .close(close)
                .readBack(readBack)
                .playback(playback)
                .keepsake(keepsake)
                .device(device)
                .hostDelays(hostDelays)
                .fault(fault)
                .build();
    }
}

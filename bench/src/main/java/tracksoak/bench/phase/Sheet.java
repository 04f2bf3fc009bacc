package tracksoak.bench.phase;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.CloseFacts;
import tracksoak.report.record.DeviceEvidence;
import tracksoak.report.record.Fault;
import tracksoak.report.record.FillFacts;
import tracksoak.report.record.HostDelays;
import tracksoak.report.record.KeepsakeFacts;
import tracksoak.report.record.Latency;
import tracksoak.report.record.Overrun;
import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.PhaseKind;
import tracksoak.report.record.PlaybackFacts;
import tracksoak.report.record.ReadBackFacts;
import tracksoak.report.record.RoundsFacts;
import tracksoak.report.record.Series;
import tracksoak.report.record.Stall;
import tracksoak.report.record.StreamTotals;

/** The sheet a phase fills in as it goes; {@link #facts} makes the immutable record of it. One thread. */
final class Sheet {

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

    Sheet(PhaseKind kind, String startedAt) {
        this.kind = kind;
        this.startedAt = startedAt;
    }

    PhaseFacts facts() {
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

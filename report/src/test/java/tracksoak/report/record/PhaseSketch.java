package tracksoak.report.record;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.Latencies;
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

/** A phase to be changed field by field, then made into facts; starts as a good one of its kind. Tests only. */
public final class PhaseSketch {
    public PhaseKind kind;
    public double seconds;
    public double plannedSeconds;
    public boolean complete = true;
    public long bytes;
    public double lostMs;
    public double lostTrackMs;
    public int tracksHit;
    public double peakBacklogMs;
    public double peakBacklogAtS;
    public double peakBacklogHostMs;
    public double busyFraction;
    public long stallCount;
    public List<Stall> stalls = new ArrayList<>();
    public List<Overrun> overruns = new ArrayList<>();
    public @Nullable Series series;
    public @Nullable Latency service;
    public @Nullable StreamTotals streams;
    public @Nullable StartFacts start;
    public @Nullable RoundsFacts rounds;
    public @Nullable FillFacts fill;
    public @Nullable CloseFacts close;
    public @Nullable ReadBackFacts readBack;
    public @Nullable PlaybackFacts playback;
    public @Nullable KeepsakeFacts keepsake;
    public @Nullable DeviceEvidence device;
    public @Nullable HostDelays hostDelays = new HostDelays(2, 20, 1, 10, 0, 0, true);
    public @Nullable Fault fault;

    private PhaseSketch(PhaseKind kind, double seconds, long bytes) {
        this.kind = kind;
        this.seconds = seconds;
        this.peakBacklogAtS = seconds / 2;
        this.bytes = bytes;
        this.device = new DeviceEvidence(bytes, 0, bytes);
    }

    /** A take that the drive carries with ease: backlog peak 400 ms, busy a quarter of the time. */
    public static PhaseSketch take(double seconds, long bytesPerSecond) {
        PhaseSketch phase = new PhaseSketch(PhaseKind.TAKE, seconds, Math.round(seconds * bytesPerSecond));
        phase.plannedSeconds = seconds;
        phase.peakBacklogMs = 400;
        phase.busyFraction = 0.25;
        phase.service = latency(7);
        return phase;
    }

    /** A fill that ended steady at {@code rate} B/s. */
    public static PhaseSketch fill(double seconds, double rate) {
        PhaseSketch phase = new PhaseSketch(PhaseKind.FILL, seconds, Math.round(seconds * rate));
        phase.fill = new FillFacts(
                FillFacts.Ended.STEADY,
                true,
                10,
                Collections.nCopies((int) (seconds / 10), rate),
                rate,
                10,
                null,
                null,
                null,
                200_000_000_000L);
        return phase;
    }

    /** A close of 800 ms. */
    public static PhaseSketch close() {
        PhaseSketch phase = new PhaseSketch(PhaseKind.CLOSE, 0.8, 0);
        phase.close = new CloseFacts(300, 100, 200, 100, 100, 800, 32);
        phase.device = null;
        return phase;
    }

    /** A read-back of all blocks, all good. */
    public static PhaseSketch readBack(long bytes) {
        PhaseSketch phase = new PhaseSketch(PhaseKind.READ_BACK, 60, bytes);
        long blocks = bytes / 4096;
        phase.device = new DeviceEvidence(0, bytes, bytes);
        phase.readBack = new ReadBackFacts(blocks, blocks, 0, 0, 0, 0, 0, 0, ReadBackFacts.Origin.DEVICE, List.of());
        return phase;
    }

    /** The facts. */
    public PhaseFacts facts() {
        return PhaseFacts.builder(kind, "2026-02-14T18:00:00Z")
                .seconds(seconds)
                .plannedSeconds(plannedSeconds)
                .complete(complete)
                .bytes(bytes)
                .operations(bytes / 65536)
                .lostMs(lostMs)
                .lostTrackMs(lostTrackMs)
                .tracksHit(tracksHit)
                .peakBacklogMs(peakBacklogMs)
                .peakBacklogAtS(peakBacklogAtS)
                .peakBacklogHostMs(peakBacklogHostMs)
                .busyFraction(busyFraction)
                .stallCount(Math.max(stallCount, stalls.size()))
                .stallTotalMs(stalls.stream().mapToDouble(Stall::ms).sum())
                .stalls(stalls)
                .overruns(overruns)
                .service(service)
                .response(service)
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

    /** A seeded latency distribution. */
    public static Latency latency(long seed) {
        Histogram histogram = new Histogram(1_000, 3_600_000_000_000L, 3);
        java.util.Random random = new java.util.Random(seed);
        for (int i = 0; i < 5_000; i++) {
            histogram.recordValue(1_000_000 + (long) (2_000_000 * Math.exp(random.nextGaussian())));
        }
        return Latencies.of(histogram);
    }
}

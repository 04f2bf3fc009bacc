package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;
import org.HdrHistogram.Histogram;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;

/** The recorder loop on virtual time against closed forms of queueing theory. */
class ClosedFormsTest {

    private static final long SECOND = 1_000_000_000L;
    private static final long DEMAND = 4_608_000;
    private static final int BLOCK = 4096;

    /** Demand R = 4.608 MB/s, drive C = 30 MB/s, a stall T = 0.75 s every P = 10 s (arithmetic of a fluid queue). */
    @Test
    void stallMakesABacklogOfDemandTimesItsLength() throws IOException {
        TakeFigures figures = new LoopRun(interleaved(2), stalling(30_000_000), 60).play();
        // 3.456 MB of backlog is 750 ms of audio; a chunk more may be under way: 0.889 ms.
        assertThat(figures.totals().peakMs()).isBetween(750.0, 751.2);
        assertThat(figures.stallCount()).isEqualTo(6);
        assertThat(figures.stalls()).allSatisfy(stall -> assertThat(stall.ms()).isBetween(749.0, 750.3));
        assertThat(figures.worstLostMs()).isZero();
        // Little: mean backlog = demand × mean wait. Fluid: R·T·(T + drain) ÷ 2P = 153,119 B.
        double waitS = (figures.histograms().response().getMean()
                        - figures.histograms().service().getMean())
                / 1e9;
        double heldInService = figures.histograms().service().getMean() / 1e9 * DEMAND;
        assertThat(waitS * DEMAND + heldInService).isCloseTo(153_119, Percentage.withPercentage(1.5));
    }

    @Test
    void backlogIsDrainedAtTheDifferenceOfTheRates() throws IOException {
        long workNs = new LoopRun(interleaved(2), stalling(30_000_000), 60).longestWorkNs();
        // R·T ÷ (C − R) = 0.136106 s after the stall of 0.75 s, give or take a chunk of 0.889 ms.
        assertThat(workNs / 1e9).isCloseTo(0.75 + 0.136106, within(0.0015));
    }

    @Test
    void takeIsStableUpToTheCriticalRate() throws IOException {
        // Stable iff R·P ≤ C·(P − T): C = 4.98162 MB/s.
        double critical = DEMAND * 10 / 9.25;
        TakeFigures above = new LoopRun(interleaved(2), stalling(Math.round(critical * 1.01)), 900).play();
        assertThat(above.worstLostMs()).isZero();
        TakeFigures below = new LoopRun(interleaved(2), stalling(Math.round(critical * 0.97)), 900).play();
        assertThat(below.worstLostMs()).isPositive();
    }

    /** M/D/1, wait ÷ service = ρ ÷ 2(1 − ρ) (Pollaczek and Khinchine). Many slow streams together come near Poisson. */
    @ParameterizedTest
    @CsvSource({"0.5, 0.5", "0.8, 2.0"})
    void randomArrivalsWaitAsInMD1(double load, double expected) throws IOException {
        Session session = manySlowStreams(1000);
        double chunksPerSecond = session.bytesPerSecond() / (double) BLOCK;
        long serviceNs = Math.round(load / chunksPerSecond * 1e9);
        TakeFigures figures = new LoopRun(session, Service.constant(serviceNs), 800).play();
        assertThat(meanWaitNs(figures) / serviceNs).isCloseTo(expected, Percentage.withPercentage(5));
    }

    /** D/M/1, Wq·µ = δ ÷ (1 − δ) with δ = exp(−(1 − δ) ÷ ρ). */
    @ParameterizedTest
    @CsvSource({"0.8, 1.692731, 1000000, 2", "0.9, 4.178659, 1000000, 3"})
    void steadyArrivalsAtARandomServerWaitAsInDM1(double load, double expected, int chunks, double percent)
            throws IOException {
        double meanNs = load * 10_000_000;
        Session session = oneStream(500);
        TakeFigures figures = new LoopRun(session, Service.exponential(31, meanNs), chunks / 100.0).play();
        assertThat(figures.totals().operations()).isBetween(chunks - 500L, (long) chunks);
        assertThat(figures.worstLostMs()).isZero();
        assertThat(meanWaitNs(figures) / meanNs).isCloseTo(expected, Percentage.withPercentage(percent));
    }

    /** Service of 5 ms, in one of a thousand 500 ms, at 100 chunks per second: mean wait 30.519 ms (M/G/1). */
    @Test
    void rareLongWritesMakeEverybodyWait() throws IOException {
        Session session = manySlowStreams(400);
        double perSecond = session.bytesPerSecond() / (double) BLOCK;
        double unit = 100 / perSecond;
        DriveModel drive = Service.drive(
                "two-point service",
                17,
                random -> Math.round((random.nextInt(1000) == 0 ? 500_000_000 : 5_000_000) * unit));
        TakeFigures figures = new LoopRun(session, drive, 10_000).play();
        // The time unit is scaled so that the streams make exactly 100 chunks in it.
        assertThat(meanWaitNs(figures) / unit / 1e6).isCloseTo(30.519, Percentage.withPercentage(6));
    }

    /**
     * Coordinated omission: 10,000 writes of 1 ms at 10 ms intervals and one of 100 s. Timed from the schedule the
     * picture must be the corrected one of the HdrHistogram README and HistogramDataAccessTest. As there, the drive
     * catches up at once.
     */
    @Test
    void responseIsTimedFromTheSchedule() throws IOException {
        Histogram response = hanging(0, 200.015).histograms().response();
        assertThat(response.getTotalCount()).isEqualTo(20_001);
        assertThat(response.getMean() / 1e3).isCloseTo(25_003_007, Percentage.withPercentage(0.1));
        assertThat(response.getValueAtPercentile(49) / 1e3).isCloseTo(1_000, Percentage.withPercentage(0.1));
        assertThat(response.getValueAtPercentile(75) / 1e3).isCloseTo(50_003_967, Percentage.withPercentage(0.1));
        assertThat(response.getValueAtPercentile(90) / 1e3).isCloseTo(80_019_455, Percentage.withPercentage(0.1));
        assertThat(response.getValueAtPercentile(99) / 1e3).isCloseTo(98_041_855, Percentage.withPercentage(1));
        assertThat(response.getMaxValue() / 1e3).isCloseTo(100_007_935, Percentage.withPercentage(0.1));
    }

    /** The same where each write after the hang takes 1 ms: the k-th chunk that waits has waited 100 s − 9 ms·k. */
    @Test
    void catchingUpTakesItsTimeToo() throws IOException {
        TakeFigures figures = hanging(1_000_000, 250.005);
        Histogram response = figures.histograms().response();
        int late = 11_112;
        double lateMeanS = 100 - 0.009 * (late - 1) / 2;
        double expectedS = (late * lateMeanS + (25_000 - late) * 0.001) / 25_000;
        assertThat(response.getTotalCount()).isEqualTo(25_000);
        assertThat(response.getMean() / 1e9).isCloseTo(expectedS, Percentage.withPercentage(0.1));
        assertThat(figures.histograms().service().getValueAtPercentile(99) / 1e6)
                .as("the service time alone shows nothing")
                .isCloseTo(1, within(0.01));
        assertThat(figures.stallCount()).isEqualTo(1);
    }

    private static TakeFigures hanging(long afterwardsNs, double seconds) throws IOException {
        AtomicLong writes = new AtomicLong(-1);
        DriveModel drive = Service.drive("one write of 100 s", 0, random -> {
            long write = writes.getAndIncrement();
            return write < 10_000 ? 1_000_000 : write == 10_000 ? 100 * SECOND : afterwardsNs;
        });
        return new LoopRun(oneStream(500), drive, seconds).play();
    }

    private static double meanWaitNs(TakeFigures figures) {
        return figures.histograms().response().getMean()
                - figures.histograms().service().getMean();
    }

    private static DriveModel stalling(long rate) {
        return DriveModel.of(
                "stalling",
                "of the fluid queue",
                0,
                64L << 30,
                new ConstantRate(rate, rate, 0),
                new PeriodicStalls(5 * SECOND, 10 * SECOND, SECOND * 3 / 4));
    }

    /** All 32 tracks in one file: 4.608 MB/s in pieces of 4 KiB, as near to a fluid as it gets. */
    private static Session interleaved(double bufferS) {
        return Sessions.of(
                List.of(new TrackGroup(32, 48_000, SampleFormat.PCM_24)),
                FileLayout.INTERLEAVED,
                BLOCK,
                Arrival.BURST,
                0,
                bufferS,
                250);
    }

    /** One chunk of 4 KiB every 10 ms. */
    private static Session oneStream(double bufferS) {
        return Sessions.of(
                List.of(new TrackGroup(1, 204_800, SampleFormat.PCM_16)),
                FileLayout.FILE_PER_TRACK,
                BLOCK,
                Arrival.BURST,
                0,
                bufferS,
                250);
    }

    /** Streams of all rates around one chunk in 4 s: together they come near a Poisson stream (Palm and Khinchine). */
    private static Session manySlowStreams(int streams) {
        SplittableRandom random = new SplittableRandom(streams);
        List<TrackGroup> groups = new ArrayList<>();
        for (int i = 0; i < streams; i++) {
            groups.add(new TrackGroup(1, 256 + random.nextInt(512), SampleFormat.PCM_16));
        }
        return Sessions.of(groups, FileLayout.FILE_PER_TRACK, BLOCK, Arrival.STAGGERED, 0, 60, 250);
    }
}

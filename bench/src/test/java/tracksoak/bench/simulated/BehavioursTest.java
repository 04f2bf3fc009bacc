package tracksoak.bench.simulated;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static tracksoak.bench.simulated.Rig.SECOND;

import java.io.IOException;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.system.NeverReturnedException;

/** Each behaviour against its closed form. */
class BehavioursTest {

    private static final int MB = 1 << 20;
    private static final ConstantRate PLAIN = new ConstantRate(MB, 2 * MB, 1000);

    @Test
    void constantRateTakesOverheadAndBytesOverRate() throws IOException {
        Rig rig = Rig.of(PLAIN);
        DriveFile file = rig.drive.create("a");
        assertThat(rig.write(file, 0, 0, 0, MB)).isEqualTo(SECOND + 1000);
        assertThat(rig.write(file, MB, 0, 0, MB / 4)).isEqualTo(SECOND / 4 + 1000);
        long before = rig.clock.nanoTime();
        rig.check(file, 0, 0, 0);
        assertThat(rig.clock.nanoTime() - before).isEqualTo(4096 * SECOND / (2 * MB) + 1000);
    }

    @Test
    void aWeakSpotIsReadAgainAndAgainAndNeverTouchesAWrite() throws IOException {
        long plain = SECOND / 2 + 1000;
        Rig rig = Rig.of(PLAIN, new WeakReads(1, 256 << 10, 7_000_000, 1));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.fill(file, 0, 8 * MB, MB)).isEqualTo(8 * SECOND + 8000);
        for (int i = 0; i < 8; i++) {
            // every spot is weak and takes exactly one try more; a read that begins between two spots touches one more
            assertThat(rig.read(file, (long) i * MB, MB)).isBetween(plain + 4 * 7_000_000, plain + 5 * 7_000_000);
        }
    }

    /** First digits in base 10: with nine tries at most the law is Benford's (1938), 30.1 % of ones and a mean of 3.44. */
    @Test
    void weakSpotsFollowTheLawOfFirstDigits() throws IOException {
        int spot = 4096;
        int spots = 40_000;
        Rig rig = Rig.of(PLAIN, new WeakReads(4, spot, 7_000_000, 9));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, (long) spots * spot, MB);
        int[] seen = new int[10];
        for (int i = 0; i < spots; i++) {
            long more = rig.read(file, (long) i * spot, spot) - 1000 - spot * SECOND / (2 * MB);
            assertThat(more % 7_000_000).isZero();
            seen[(int) (more / 7_000_000)]++;
        }
        double weak = spots - seen[0];
        // five standard deviations each: sqrt(40,000 · 1/4 · 3/4) = 87 spots; sqrt(0.301 · 0.699 ÷ 10,000) = 0.46 %
        assertThat(weak).isBetween(10_000 - 5 * 87.0, 10_000 + 5 * 87.0);
        assertThat(seen[1] / weak).isCloseTo(0.30103, within(0.023));
        double mean = 0;
        for (int k = 1; k <= 9; k++) {
            mean += k * seen[k] / weak;
        }
        // standard deviation of a first digit is 2.46, so that of the mean 0.025
        assertThat(mean).isCloseTo(3.4402, within(0.125));
    }

    @Test
    void cliffIsAtTheSizeOfTheCache() throws IOException {
        Rig rig = Rig.of(new FastCache(8 * MB, MB, 8 * MB, 16 * MB, MB, false));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.fill(file, 0, 16 * MB, MB)).isEqualTo(2 * SECOND);
        assertThat(rig.fill(file, 16 * MB, 16 * MB, MB)).isEqualTo(16 * SECOND);
    }

    @Test
    void writeAcrossTheCliffIsSplit() throws IOException {
        Rig rig = Rig.of(new FastCache(8 * MB, MB, 8 * MB, MB + MB / 2, 0, false));
        DriveFile file = rig.drive.create("a");
        rig.write(file, 0, 0, 0, MB);
        assertThat(rig.write(file, MB, 0, 0, MB)).isEqualTo(SECOND / 16 + SECOND / 2);
    }

    @Test
    void cacheDrainsOnlyWhileIdle() throws IOException {
        Rig rig = Rig.of(new FastCache(8 * MB, MB, 8 * MB, 16 * MB, MB, false));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 32 * MB, MB);
        rig.clock.advance(4 * SECOND);
        assertThat(rig.fill(file, 32 * MB, 4 * MB, MB)).isEqualTo(SECOND / 2);
        assertThat(rig.write(file, 36 * MB, 0, 0, MB)).isEqualTo(SECOND);
    }

    @Test
    void cacheShrinksInProportionToTheFreePart() throws IOException {
        DriveModel model =
                DriveModel.of("rig", "for a test", 1, 1 << 30, new FastCache(8 * MB, MB, 8 * MB, 64 * MB, 0, true));
        Rig half = new Rig(Models.used(model, 1 << 29));
        DriveFile file = half.drive.create("a");
        int fast = 0;
        while (half.write(file, (long) fast * MB, 0, 0, MB) == SECOND / 8) {
            fast++;
        }
        // n MB written leave (512 − n) of 1,024 MB free, so the cache holds 64·(512 − n) ÷ 1,024: n = 30.1.
        assertThat(fast).isEqualTo(30);
    }

    @Test
    void periodicStallHoldsUpExactlyTheWorkItMeets() throws IOException {
        Rig rig = Rig.of(PLAIN, new PeriodicStalls(10 * SECOND, 20 * SECOND, 3 * SECOND));
        DriveFile file = rig.drive.create("a");
        rig.clock.waitUntil(9 * SECOND + SECOND / 2);
        assertThat(rig.write(file, 0, 0, 0, MB)).as("half done when it stops").isEqualTo(4 * SECOND + 1000);
        rig.clock.waitUntil(31 * SECOND);
        assertThat(rig.write(file, MB, 0, 0, MB)).as("called in a stall").isEqualTo(3 * SECOND + 1000);
        assertThat(rig.write(file, 2 * MB, 0, 0, MB)).as("after it").isEqualTo(SECOND + 1000);
    }

    @Test
    void periodicStallsCostTheirShareOfTime() throws IOException {
        Rig rig = Rig.of(new ConstantRate(MB, MB, 0), new PeriodicStalls(5 * SECOND, 10 * SECOND, SECOND));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.fill(file, 0, 90L * MB, MB))
                .as("90 s of work, ten stalls")
                .isEqualTo(100 * SECOND);
    }

    @Test
    void randomStallsKeepTheirLimitsAndTheirMeanGap() throws IOException {
        Rig rig = Rig.of(new ConstantRate(MB, MB, 0), new RandomStalls(10 * SECOND, SECOND / 10, 2 * SECOND, 1.5));
        DriveFile file = rig.drive.create("a");
        int chunk = 16 << 10;
        long plain = (long) chunk * SECOND / MB;
        int writes = 640_000;
        long[] stalls = LongStream.range(0, writes)
                .map(i -> {
                    try {
                        return rig.write(file, i * chunk, 0, 0, chunk) - plain;
                    } catch (IOException e) {
                        throw new AssertionError(e);
                    }
                })
                .filter(ns -> ns > 0)
                .toArray();
        System.out.println("random stalls: seed 42, " + stalls.length + " of about 1000");
        // 10,000 s of work; mean gap 10 s of time between stalls: Poisson with mean 1,000, four standard deviations.
        assertThat(stalls.length).isBetween(870, 1130);
        assertThat(LongStream.of(stalls).min().orElseThrow()).isGreaterThanOrEqualTo(SECOND / 10);
        assertThat(LongStream.of(stalls).max().orElseThrow()).isBetween(SECOND, 2 * SECOND + SECOND / 2);
        // Pareto cut at b = 20·a: P(at the cut) = 20^−1.5 = 1.1 %; half of all below a·2^(1/1.5) = 0.159 s.
        long[] sorted = LongStream.of(stalls).sorted().toArray();
        assertThat(sorted[sorted.length / 2] / 1e9).isCloseTo(0.1587, within(0.012));
    }

    @Test
    void cleanUpComesAfterSoManyBytes() throws IOException {
        Rig rig = Rig.of(new ConstantRate(MB, MB, 0), new CleanUpStalls(10 * MB, SECOND));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.fill(file, 0, 100 * MB, MB)).isEqualTo(110 * SECOND);
    }

    @Test
    void longWritesComeInARowAfterSoManyBytes() throws IOException {
        Rig rig = Rig.of(new ConstantRate(MB, MB, 0), new LongWrites(10 * MB, 3, SECOND / 4));
        DriveFile file = rig.drive.create("a");
        // ten rows, of the last only the write that it begins with
        assertThat(rig.fill(file, 0, 100 * MB, MB)).isEqualTo(100 * SECOND + (9 * 3 + 1) * SECOND / 4);
    }

    @Test
    void heatThrottlesAndRecoversAsALeakyBucket() throws IOException {
        // F = 8, cooling 2, throttled to f = 1 MB/s; hot at 60 MB, recovers at 30 MB.
        Rig rig = Rig.of(new ConstantRate(8 * MB, 8 * MB, 0), new Heat(60 * MB, 30 * MB, 2 * MB, 125));
        DriveFile file = rig.drive.create("a");
        int chunk = 64 << 10;
        long full = (long) chunk * SECOND / (8 * MB);
        long position = 0;
        while (rig.write(file, position, 0, 0, chunk) == full) {
            position += chunk;
        }
        long hotAt = rig.clock.nanoTime();
        assertThat(hotAt / 1e9).as("60 ÷ (8 − 2) s").isCloseTo(10, within(0.1));
        while (rig.write(file, position, 0, 0, chunk) > full) {
            position += chunk;
        }
        assertThat((rig.clock.nanoTime() - hotAt) / 1e9).as("30 ÷ (2 − 1) s").isCloseTo(30, within(0.2));
    }

    @Test
    void allocationAndDirectoryGrowDearer() throws IOException {
        Rig rig = Rig.of(new ConstantRate(1_000_000_000, MB, 0), new AllocationCost(5000, 70_000, 100, 10));
        DriveFile first = rig.drive.create("a");
        long plain = 65_536;
        assertThat(rig.write(first, 0, 0, 0, 65_536))
                .as("first cluster, one file")
                .isEqualTo(plain + 5000 + 100 + 10);
        assertThat(rig.write(first, 65_536, 0, 0, 65_536)).as("same cluster").isEqualTo(plain);
        DriveFile second = rig.drive.create("b");
        rig.write(second, 0, 0, 0, 65_536);
        assertThat(rig.write(first, 131_072, 0, 0, 65_536))
                .as("two files, second fragment")
                .isEqualTo(plain + 5000 + 200 + 20);
        long before = rig.clock.nanoTime();
        first.flush(false);
        assertThat(rig.clock.nanoTime() - before).isZero();
        first.flush(true);
        assertThat(rig.clock.nanoTime() - before).isEqualTo(70_200);
    }

    /** SD Physical Layer Simplified Specification 4.10, §4.13, formula (1) with Pw = 6, Pm = 3, N = 16. */
    @ParameterizedTest
    @CsvSource({"0, 6.0", "4, 3.6", "8, 2.0", "12, 0.857143"})
    void fragmentedUnitsGiveThePublishedRates(int used, double rate) throws IOException {
        int unit = 512 << 10;
        Rig rig = Rig.of(new FragmentedUnits(6_000_000, 3_000_000, 6_000_000, 16, used, unit));
        DriveFile file = rig.drive.create("a");
        long bytes = 100L * (16 - used) * unit;
        double seconds = rig.fill(file, 0, bytes, unit) / 1e9;
        assertThat(bytes / seconds / 1e6).isCloseTo(rate, within(1e-5));
    }

    @Test
    void zonesSlowDownInEqualSteps() {
        DiskZones disk = new DiskZones(100 * MB, 55 * MB, 10, 0, 0);
        assertThat(disk.rateAt(0, 1000)).isEqualTo(100 * MB);
        assertThat(disk.rateAt(499, 1000)).isEqualTo(80 * MB);
        assertThat(disk.rateAt(999, 1000)).isEqualTo(55 * MB);
    }

    @Test
    void aSecondCliffComesAfterSoManyBytesAndGoesWhileIdle() throws IOException {
        Rig rig = Rig.of(new FastCache(8 * MB, 2 * MB, 8 * MB, 8 * MB, 0, false), new SecondCliff(16 * MB, 250, MB));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.fill(file, 0, 8 * MB, MB)).as("fast").isEqualTo(SECOND);
        assertThat(rig.fill(file, 8 * MB, 8 * MB, MB)).as("behind the first").isEqualTo(4 * SECOND);
        assertThat(rig.fill(file, 16 * MB, 2 * MB, MB)).as("behind the second").isEqualTo(4 * SECOND);
        rig.clock.advance(3 * SECOND);
        assertThat(rig.fill(file, 18 * MB, 3 * MB, MB))
                .as("what went while idle")
                .isEqualTo(3 * SECOND / 2);
        assertThat(rig.write(file, 21 * MB, 0, 0, MB)).isEqualTo(2 * SECOND);
    }

    @Test
    void slowZonesAreTheLastPartOfEveryStretch() throws IOException {
        Rig rig = Rig.of(new ConstantRate(8 * MB, 8 * MB, 0), new SlowZones(16 * MB, 4 * MB, 500));
        DriveFile file = rig.drive.create("a");
        for (int stretch = 0; stretch < 3; stretch++) {
            long from = 16L * MB * stretch;
            assertThat(rig.fill(file, from, 12 * MB, MB)).isEqualTo(SECOND * 3 / 2);
            assertThat(rig.fill(file, from + 12 * MB, 4 * MB, MB)).isEqualTo(SECOND);
        }
        assertThat(rig.read(file, 12 * MB, MB)).isEqualTo(SECOND / 4);
        assertThat(rig.read(file, 0, MB)).isEqualTo(SECOND / 8);
    }

    @Test
    void aStopThatNeverEndsTakesADayAndNoLonger() throws IOException {
        Rig rig = new Rig(DriveModel.of(
                "rig",
                "for a test",
                1,
                1 << 30,
                new ConstantRate(1000, 1000, 0),
                new RandomStalls(1_000_000, Call.LONGEST_NS, Call.LONGEST_NS, 1),
                new Jitter(100_000),
                new Heat(4096, 0, 1000, 1),
                new Ageing(1 << 20, 1L << 50)));
        assertThatThrownBy(() -> rig.write(rig.drive.create("a"), 0, 0, 0, MB))
                .isInstanceOf(NeverReturnedException.class);
    }

    @Test
    void diskSeeksOnlyWhereItDoesNotGoOn() throws IOException {
        Rig rig = Rig.of(new DiskZones(128 * MB, 64 * MB, 2, 1000, 9000));
        DriveFile file = rig.drive.create("a");
        long plain = (128 << 10) * SECOND / (128 * MB);
        rig.write(file, 0, 0, 0, 128 << 10);
        assertThat(rig.write(file, 128 << 10, 0, 0, 128 << 10)).isEqualTo(plain);
        assertThat(rig.write(file, 0, 0, 0, 128 << 10)).isEqualTo(plain + 1000);
        rig.fill(file, 0, 32 * MB, MB);
        assertThat(rig.write(file, 0, 0, 0, 128 << 10)).isEqualTo(plain + 9000);
    }

    @Test
    void diskSleepsWhenLeftAlone() throws IOException {
        Rig rig = Rig.of(PLAIN, new SpinUp(10 * SECOND, 11 * SECOND, true));
        long before = rig.clock.nanoTime();
        DriveFile file = rig.drive.create("a");
        assertThat(rig.clock.nanoTime() - before).as("asleep at first").isEqualTo(11 * SECOND + 1000);
        rig.clock.advance(10 * SECOND);
        assertThat(rig.write(file, 0, 0, 0, MB)).as("not yet asleep").isEqualTo(SECOND + 1000);
        rig.clock.advance(10 * SECOND + 1);
        assertThat(rig.write(file, 0, 0, 0, MB)).isEqualTo(12 * SECOND + 1000);
    }

    @Test
    void sharedBusHalvesTheRateForAWhile() throws IOException {
        Rig rig = Rig.of(new ConstantRate(MB, MB, 0), new SharedBus(10 * SECOND, 100 * SECOND, 20 * SECOND, 500));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.fill(file, 0, 10 * MB, MB)).isEqualTo(10 * SECOND);
        assertThat(rig.fill(file, 10 * MB, 10 * MB, MB)).isEqualTo(20 * SECOND);
        assertThat(rig.fill(file, 20 * MB, 10 * MB, MB)).isEqualTo(10 * SECOND);
    }

    @Test
    void serialFlushPaysForWhatWaits() throws IOException {
        Rig rig = Rig.of(new ConstantRate(10 * MB, MB, 0), new SerialFlush(1_000_000, MB, 8 * MB));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 3 * MB, MB);
        long before = rig.clock.nanoTime();
        file.flush(false);
        assertThat(rig.clock.nanoTime() - before).isEqualTo(3 * SECOND + 1_000_000);
        file.flush(false);
        assertThat(rig.clock.nanoTime() - before).isEqualTo(3 * SECOND + 2_000_000);
        assertThat(rig.fill(file, 3 * MB, 12 * MB, MB))
                .as("8 MB into the memory, 4 MB past it")
                .isCloseTo(SECOND * 12 / 10 + 4 * SECOND, within(20L));
    }

    @Test
    void ageHalvesTheRate() throws IOException {
        Rig rig = Rig.of(new ConstantRate(MB, MB, 0), new Ageing(100 * MB, 50 * MB));
        DriveFile file = rig.drive.create("a");
        assertThat(rig.write(file, 0, 0, 0, MB)).isEqualTo(SECOND * 3 / 2);
        rig.fill(file, MB, 49 * MB, MB);
        assertThat(rig.write(file, 50 * MB, 0, 0, MB)).isEqualTo(2 * SECOND);
    }

    @Test
    void removalEndsEverything() throws IOException {
        Rig rig = Rig.of(PLAIN, new Removal(5 * MB, Long.MAX_VALUE));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 5 * MB, MB);
        assertThat(rig.drive.presence()).isEqualTo(Presence.PRESENT);
        long before = rig.clock.nanoTime();
        assertThatThrownBy(() -> rig.write(file, 5 * MB, 0, 0, MB)).isInstanceOf(IOException.class);
        assertThat(rig.clock.nanoTime() - before).isEqualTo(SECOND / 10);
        assertThat(rig.drive.presence()).isEqualTo(Presence.GONE);
        assertThat(rig.drive.counters()).isEmpty();
        assertThatThrownBy(() -> file.flush(true)).isInstanceOf(IOException.class);
        assertThatThrownBy(() -> rig.drive.list()).isInstanceOf(IOException.class);
        file.close();
    }

    @Test
    void removalByTimeMeetsTheCallUnderWay() throws IOException {
        Rig rig = Rig.of(PLAIN, new Removal(Long.MAX_VALUE, 3 * SECOND));
        DriveFile file = rig.drive.create("a");
        rig.write(file, 0, 0, 0, MB);
        rig.write(file, MB, 0, 0, MB);
        assertThatThrownBy(() -> rig.write(file, 2 * MB, 0, 0, MB)).isInstanceOf(IOException.class);
    }

    @Test
    void wornOutDriveCanStillBeRead() throws IOException {
        Rig rig = Rig.of(PLAIN, new WearOut(5 * MB));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 5 * MB, MB);
        assertThatThrownBy(() -> rig.write(file, 5 * MB, 0, 0, MB)).isInstanceOf(IOException.class);
        assertThat(rig.drive.presence()).isEqualTo(Presence.READ_ONLY);
        assertThatThrownBy(() -> rig.drive.create("b")).isInstanceOf(IOException.class);
        assertThat(rig.check(file, 77, 0, 0)).isEqualTo(tracksoak.bench.stream.BlockState.GOOD);
    }

    @Test
    void writeThatNeverReturnsMovesTheClockByTheHangLimit() throws IOException {
        Rig rig = Rig.of(PLAIN, new NeverReturns(5 * MB));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 5 * MB, MB);
        long before = rig.clock.nanoTime();
        assertThatThrownBy(() -> rig.write(file, 5 * MB, 0, 0, MB)).isInstanceOf(NeverReturnedException.class);
        assertThat(rig.clock.nanoTime() - before).isEqualTo(Rig.HANG_LIMIT);
        assertThatThrownBy(() -> file.flush(false)).isInstanceOf(NeverReturnedException.class);
    }

    @Test
    void hangOfTwentySecondsComesBack() throws IOException {
        Rig rig = Rig.of(PLAIN, new HangsOnce(2 * MB, 20 * SECOND));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 2 * MB, MB);
        assertThat(rig.write(file, 2 * MB, 0, 0, MB)).isEqualTo(21 * SECOND + 1000);
        assertThat(rig.write(file, 3 * MB, 0, 0, MB)).isEqualTo(SECOND + 1000);
    }

    @Test
    void figuresOutOfRangeAreRefused() {
        assertThatThrownBy(() -> new ConstantRate(0, 1000, -1))
                .hasMessage("write is 0 B/s, must be 1 kB/s to 9 GB/s; overhead is -1 ns, must be 0 ns to 24 h");
        assertThatThrownBy(() -> new PeriodicStalls(0, SECOND, SECOND))
                .hasMessage("length is 1 s, must be 1 ns to 999999999 ns");
        assertThatThrownBy(() -> new FragmentedUnits(1, 1, 1, 16, 16, 4096))
                .hasMessageContaining("used is 16, must be 0 to 15");
        assertThatThrownBy(() -> new RandomStalls(1, 2, 1, 1))
                .hasMessageContaining("least is 2 ns, must be 1 ns to 1 ns");
        assertThatThrownBy(() -> new RandomStalls(SECOND, 1, 1, Double.NaN))
                .hasMessage("tail is NaN, must be 0.1 to 100.0");
    }
}

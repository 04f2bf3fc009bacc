package tracksoak.report.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tracksoak.report.history.Change.Said;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.stats.Spread;

class DriveHistoryTest {

    private static final double[] DAYS = {0, 31, 62, 120, 151, 200, 274};

    private static double[] mb(double... floors) {
        return java.util.Arrays.stream(floors).map(floor -> floor * 1e6).toArray();
    }

    /**
     * SciPy 1.17.1 ({@code kendalltau} exact, {@code theilslopes}): chance 0.000198 (1 ÷ 7!), asked for the third time and so times 3 · 4, slope −51,095 B/s a day, line at day
     * 274 28.13 MB/s. The session asks 2 × 4.608 = 9.216 MB/s: (28.131 − 9.216) ÷ 0.051095 = 370 days, twelve months;
     * with the interval's ends, from the line's middle at day 120 (36 MB/s): 299 and 489 days, 9.8 and 16.1 months, told down and up.
     */
    @Test
    void aFallingFloorIsSaidWithItsPaceAndWhenItMeetsTheLimit() {
        DriveHistory history =
                Histories.seenByLast(Histories.floors(DAYS, mb(41.0, 40.2, 37.5, 36.0, 33.1, 31.5, 27.0)));
        assertThat(history.ageing()).isTrue();
        assertThat(history.sentence())
                .isEqualTo("The floor fell from 41 MB/s to 27 MB/s in nine months; at this pace it meets this session's"
                        + " limit of 9.22 MB/s in about twelve months (95 % interval of the pace: in nine months at the"
                        + " soonest, in 17 months at the latest). Found in 7 runs; chance alone makes such a line in"
                        + " 0.2 % of cases.");
        Change floor = history.change(Figure.FLOOR);
        assertThat(floor.earlier()).isEqualTo(new Spread(6, 31.5e6, 36.75e6, 41e6));
        assertThat(Objects.requireNonNull(floor.chance())).isCloseTo(3 * 4 / 5040.0, within(1e-12));
        assertThat(history.slow()).isFalse();
    }

    @Test
    void anUnevenFloorIsNoChange() {
        DriveHistory history =
                Histories.seenByLast(Histories.floors(DAYS, mb(38.0, 41.0, 36.5, 40.2, 37.1, 39.9, 38.4)));
        assertThat(history.ageing()).isFalse();
        assertThat(history.sentence()).isEqualTo("No change for the worse beyond the usual spread of 6 earlier runs.");
        assertThat(history.change(Figure.FLOOR).sentence())
                .isEqualTo(
                        "Floor: 38.4 MB/s, no change for the worse beyond the usual spread (36.5 MB/s to 41 MB/s in 6"
                                + " earlier runs, median 39 MB/s).");
    }

    /** Five in falling order have a chance of 1 ÷ 5! one-sided; four of 1 ÷ 4!, above 5 % with the two figures asked. */
    @Test
    void fiveRunsAreTheLeastThatCanShowATrend() {
        double[] falling = mb(41, 38, 35, 31, 27);
        double[] days = {0, 60, 120, 180, 240};
        assertThat(Histories.seenByLast(Histories.floors(days, falling)).ageing())
                .isTrue();
        DriveHistory four = Histories.seenByLast(
                Histories.floors(java.util.Arrays.copyOf(days, 4), java.util.Arrays.copyOf(falling, 4)));
        assertThat(four.ageing()).isFalse();
        assertThat(four.sentence())
                .startsWith(
                        "Trends need 5 runs, and 4 can be compared. This run is the worst so far: floor 31 MB/s, before 35 MB/s to 41 MB/s;")
                .contains("once in 4 times");
    }

    @Test
    void runsOfOneWeekShowNoAge() {
        DriveHistory history =
                Histories.seenByLast(Histories.floors(new double[] {0, 1, 2, 3, 7}, mb(41, 38, 35, 31, 27)));
        assertThat(history.ageing()).isFalse();
        assertThat(history.sentence()).contains("all runs lie within seven days, which is too short to tell ageing");
    }

    @Test
    void aRisingBacklogIsSaidToo() {
        double[] peaks = {310, 330, 420, 500, 610, 700, 760};
        List<RunRecord> runs = new ArrayList<>();
        for (int i = 0; i < DAYS.length; i++) {
            double peak = peaks[i];
            runs.addAll(Histories.runs(
                    new double[] {DAYS[i]}, new double[] {40e6 + (i % 2) * 1e6}, run -> Histories.peak(run, peak)));
        }
        DriveHistory history = Histories.seenByLast(runs);
        assertThat(history.change(Figure.PEAK_BACKLOG).verdict()).isEqualTo(Said.WORSE);
        // limit: a buffer of 2 s at a margin of 2
        assertThat(history.sentence())
                .startsWith("The peak backlog rose from 310 ms to 760 ms in nine months; at this pace it meets this"
                        + " session's limit of 1 s in about");
        assertThat(history.change(Figure.FLOOR).verdict()).isEqualTo(Said.NO_CHANGE);
    }

    /** FAST'16: slow is more than twice the latency of its peers; the peer here is the drive's own best run. */
    @Test
    void halfOfItsOwnBestIsSlowWhateverTheSession() {
        double[] days = {0, 100};
        assertThat(Histories.seenByLast(Histories.floors(days, mb(90, 45))).slow())
                .isFalse();
        DriveHistory slow = Histories.seenByLast(Histories.floors(days, mb(90, 44.9)));
        assertThat(slow.slow()).isTrue();
        assertThat(slow.sentence())
                .startsWith(
                        "This drive is slow, whatever the session asks: its floor is 44.9 MB/s, less than half of its"
                                + " own best of 90 MB/s on 2025-05-14.");
    }

    /** Takes of 300 s and 600 s, mean 7 ms; late for more than 10 % of one or both, whose means are the computer's too. */
    @Test
    void aLateComputerMakesNoDriveSlow() {
        RunSketch run = RunSketch.good();
        Double mean = Figure.SERVICE_TIME.of(run.record());
        assertThat(mean).isNotNull();
        late(run.phases.get(0), 30_000);
        late(run.phases.get(2), 60_000);
        assertThat(Figure.SERVICE_TIME.of(run.record())).isEqualTo(mean);
        late(run.phases.get(0), 30_001);
        assertThat(Figure.SERVICE_TIME.of(run.record())).isEqualTo(mean);
        late(run.phases.get(2), 60_001);
        assertThat(Figure.SERVICE_TIME.of(run.record())).isNull();
    }

    private static void late(PhaseSketch take, double ms) {
        take.hostDelays = new HostDelays(5, ms, 0, 0, 0, 0, true);
    }

    @Test
    void onlyRunsOfTheSameShapeAreCompared() {
        List<RunRecord> runs = new ArrayList<>(Histories.floors(new double[] {0, 30}, mb(40, 41)));
        runs.addAll(Histories.runs(new double[] {60}, mb(90), run -> run.linkMbps = 480.0));
        runs.addAll(Histories.runs(new double[] {90}, mb(90), run -> run.fileSystem = "fat32"));
        runs.addAll(Histories.runs(new double[] {120}, mb(90), run -> run.session = RunSketch.session("barn-16", 16)));
        runs.addAll(Histories.runs(
                new double[] {150},
                mb(90),
                run -> run.plan = PlanFacts.of(PlanName.SOUND_CHECK, true, 60, 600, 60, 1)));
        runs.addAll(Histories.runs(new double[] {180}, mb(90), run -> run.state = RunState.INTERRUPTED));
        runs.addAll(Histories.floors(new double[] {210}, mb(39)));
        DriveHistory history = Histories.seenByLast(runs);
        assertThat(history.comparable()).hasSize(3);
        assertThat(history.slow()).isFalse();
        assertThat(history.earlier().stream().flatMap(past -> past.differences().stream()))
                .containsExactly(
                        "port USB at 480 Mbit/s",
                        "file system FAT32 with clusters of 131072 B",
                        "other tracks, 2.3 MB/s",
                        "take before the fill of 60 s",
                        "cap of the fill of 10 min",
                        "take of 60 s",
                        "it did not come to its end");
        assertThat(history.notes()).anyMatch(note -> note.startsWith("5 earlier runs are not compared"));
    }

    @Test
    void theComputersOwnDelayIsTakenOff() {
        RunSketch run = Histories.run(0, 40e6);
        run.phases.get(0).stalls.add(new Stall(10, 900, 850));
        run.phases.get(0).peakBacklogMs = 950;
        run.phases.get(0).peakBacklogHostMs = 900;
        RunRecord record = run.record();
        assertThat(Figure.LONGEST_STALL.of(record)).isEqualTo(50);
        assertThat(Figure.PEAK_BACKLOG.of(record)).isEqualTo(400);
    }

    @Test
    void badBlocksAndAnotherCapacityNeedNoTest() {
        List<RunRecord> runs = new ArrayList<>(Histories.floors(new double[] {0, 30}, mb(40, 41)));
        runs.addAll(Histories.runs(new double[] {60}, mb(40), run -> {
            var back = run.phase(PhaseKind.READ_BACK);
            var was = Objects.requireNonNull(back.readBack);
            back.readBack = new tracksoak.report.record.facts.ReadBackFacts(
                    was.blocks(), was.blocks() - 3, 0, 0, 0, 3, 0, 0, was.fromDevice(), List.of());
        }));
        assertThat(Histories.seenByLast(runs).sentence())
                .startsWith("Number of bad blocks: 3, before 0 in 2 earlier runs.");
    }

    /** Doubles of a record, records of the future and the run itself count once or not at all; that of the future is said. */
    @Test
    void aRecordCountsOnce() {
        List<RunRecord> runs = Histories.floors(new double[] {0, 30, 60, 500}, mb(40, 41, 39, 10));
        RunRecord latest = runs.get(2);
        List<Past> pasts = new ArrayList<>();
        for (RunRecord run : runs) {
            pasts.add(Past.of(run, latest));
            pasts.add(Past.of(run, latest));
        }
        Collections.shuffle(pasts, new java.util.Random(3));
        DriveHistory history = DriveHistory.of(latest, pasts, List.of("told"));
        assertThat(history.earlier()).extracting(Past::date).containsExactly("2025-05-14", "2025-06-13");
        assertThat(history.notes())
                .containsExactly(
                        "told",
                        "One run of this drive is left out, being dated after this one; made before it, a clock was wrong"
                                + " or the run simulated.");
    }

    @Test
    void aFirstRunHasNoHistory() {
        DriveHistory history = Histories.seenByLast(Histories.floors(new double[] {0}, mb(40)));
        assertThat(history.sentence()).isEqualTo("No earlier run of this drive can be compared with this one.");
        assertThat(history.slowness()).isNull();
    }

    /**
     * A drive that never changes is asked about after every run from the fifth to the thirtieth: in at most 5 % of such lives ageing is ever
     * called, over all figures together. 400 seeded lives in each build, 10,000 at night; without the correction it would be several times as many.
     */
    @Test
    void falseAlarmsKeepToTheLevelHoweverOftenOneAsks() {
        lives(29, 400);
    }

    @Test
    @Tag("nightly")
    void falseAlarmsKeepToTheLevelHoweverOftenOneAsksAllNight() {
        lives(30, 10_000);
    }

    private static void lives(long seed, int lives) {
        SplittableRandom random = new SplittableRandom(seed);
        int alarmed = 0;
        int uncorrected = 0;
        for (int life = 0; life < lives; life++) {
            List<Past> pasts = new ArrayList<>();
            boolean ever = false;
            boolean everAlone = false;
            for (int run = 0; run < 30; run++) {
                pasts.add(chance(run, random));
                if (run >= 4 && !(ever && everAlone)) {
                    List<Change> changes =
                            new Comparing(RunSketch.session("barn-32", 32), pasts.get(run), pasts).changes();
                    ever |= changes.stream().anyMatch(change -> change.verdict() == Said.WORSE);
                    everAlone |= tracksoak.report.stats.Trend.of(
                                            pasts.stream()
                                                    .mapToDouble(Past::day)
                                                    .toArray(),
                                            pasts.stream()
                                                    .mapToDouble(DriveHistoryTest::floor)
                                                    .toArray())
                                    .fallsByChance()
                            <= DriveHistory.LEVEL;
                }
            }
            alarmed += ever ? 1 : 0;
            uncorrected += everAlone ? 1 : 0;
        }
        System.out.println("ageing: seed " + seed + ", " + lives + " lives: " + alarmed + " false alarms, "
                + uncorrected + " of the floor alone without the correction");
        assertThat(alarmed / (double) lives).isLessThan(0.05 + 3.1 * Math.sqrt(0.05 * 0.95 / lives));
        assertThat(alarmed).isPositive();
        assertThat(uncorrected / (double) lives).as("asked again and again").isGreaterThan(0.15);
    }

    private static double floor(Past past) {
        return Objects.requireNonNull(past.values().get(Figure.FLOOR));
    }

    @Test
    void anotherFullnessAndAnotherComputerAreNotCompared() {
        List<RunRecord> runs = new ArrayList<>(Histories.floors(new double[] {0, 30}, mb(40, 41)));
        runs.addAll(Histories.runs(new double[] {60}, mb(30), run -> run.freeBytes = 60_000_000_000L));
        runs.addAll(Histories.runs(new double[] {70}, mb(39), run -> run.freeBytes = 180_000_000_000L));
        runs.addAll(Histories.floors(new double[] {90}, mb(39)));
        RunRecord elsewhere = runs.get(1);
        RunRecord moved = on(new HostFacts("another system", "amd64", "another processor", 8, null, "17"), elsewhere);
        runs.set(1, moved);
        DriveHistory history = Histories.seenByLast(runs);
        assertThat(history.comparable()).hasSize(3);
        assertThat(history.earlier().stream().flatMap(past -> past.differences().stream()))
                .containsExactly(
                        "on another computer, or this one was changed: system another system, processor another processor, 8 cores, memory unknown",
                        "filled to 75 %");
    }

    private static RunRecord on(HostFacts host, RunRecord run) {
        return new RunRecord(
                run.schema(),
                run.id(),
                run.tool(),
                run.startedAt(),
                run.endedAt(),
                run.state(),
                run.stateReason(),
                run.seed(),
                run.session(),
                run.plan(),
                run.drive(),
                run.tag(),
                host,
                run.method(),
                run.ready(),
                run.phases(),
                run.verdict());
    }

    private static DriveHistory onTwo(HostFacts then, HostFacts now) {
        List<RunRecord> runs = Histories.floors(new double[] {0, 30}, mb(40, 41));
        return Histories.seenByLast(List.of(on(then, runs.get(0)), on(now, runs.get(1))));
    }

    /** Names of systems as os-release and the Java system properties give them. */
    @Test
    void anUpdateOfTheSystemMakesNoOtherComputer() {
        String[][] pairs = {
            {
                "Debian GNU/Linux 12 (bookworm) (Linux 6.1.0-11-amd64)",
                "Debian GNU/Linux 12 (bookworm) (Linux 6.1.0-12-amd64)"
            },
            {"Ubuntu 24.04.1 LTS (Linux 6.8.0-40-generic)", "Ubuntu 24.04.3 LTS (Linux 6.14.0-27-generic)"},
            {"Mac OS X 14.5", "Mac OS X 14.6.1"},
            {"Linux 6.18.44", "Linux 6.18.45"}
        };
        for (String[] pair : pairs) {
            DriveHistory history = onTwo(
                    new HostFacts(pair[0], "amd64", "Wren 8", 8, 8_000_000_000L, "17"),
                    new HostFacts(pair[1], "amd64", "Wren 8", 8, 7_998_800_000L, "21"));
            assertThat(history.comparable()).as(pair[0]).hasSize(2);
            assertThat(history.notes()).singleElement().asString().contains("system was updated between these runs");
        }
    }

    @Test
    void whatMakesAnotherComputerIsNamed() {
        HostFacts now = new HostFacts("Debian GNU/Linux 12 (Linux 6.1)", "amd64", "Wren 8", 8, 8_000_000_000L, "17");
        HostFacts[] others = {
            new HostFacts("Debian GNU/Linux 12 (Linux 6.1)", "amd64", "Wren 8", 8, 16_000_000_000L, "17"),
            new HostFacts("Debian GNU/Linux 13 (Linux 6.1)", "amd64", "Wren 8", 8, 8_300_000_000L, "17"),
            new HostFacts("Debian GNU/Linux 12 (Linux 6.1)", "amd64", "Wren 8", 4, 7_500_000_000L, "17")
        };
        String[] why = {"memory of 16 GB", "system Debian GNU/Linux 13 (Linux 6.1)", "4 cores, memory of 7.5 GB"};
        for (int i = 0; i < others.length; i++) {
            DriveHistory history = onTwo(others[i], now);
            String clause = "on another computer, or this one was changed: " + why[i];
            assertThat(history.earlier().get(0).differences()).containsExactly(clause);
            assertThat(history.notes())
                    .containsExactly("One earlier run is not compared, being made otherwise: " + clause + ".");
        }
    }

    /** Floor and backlog get worse; the backlog is days from its limit of 1 s, the floor a year from its 9.2 MB/s. */
    @Test
    void theNearestLimitIsTheSentence() {
        double[] peaks = {310, 330, 520, 600, 710, 800, 960};
        assertThat(twoWorse(peaks).sentence())
                .startsWith("The peak backlog rose from 310 ms to 960 ms in nine months; at this pace it meets this"
                        + " session's limit of 1 s in about");
        peaks[6] = 1010;
        assertThat(twoWorse(peaks).sentence())
                .startsWith(
                        "The peak backlog rose from 310 ms to 1.01 s in nine months; it is past this session's limit"
                                + " of 1 s. Found in");
    }

    private static DriveHistory twoWorse(double... peaks) {
        double[] floors = mb(41.0, 40.2, 37.5, 36.0, 33.1, 31.5, 27.0);
        List<RunRecord> runs = new ArrayList<>();
        for (int i = 0; i < DAYS.length; i++) {
            double peak = peaks[i];
            runs.addAll(
                    Histories.runs(new double[] {DAYS[i]}, new double[] {floors[i]}, run -> Histories.peak(run, peak)));
        }
        DriveHistory history = Histories.seenByLast(runs);
        assertThat(history.change(Figure.FLOOR).verdict()).isEqualTo(Said.WORSE);
        return history;
    }

    @Test
    void aRunFarOutsideAllEarlierOnesIsSaid() {
        DriveHistory history =
                Histories.seenByLast(Histories.floors(DAYS, mb(21.0, 20.9, 21.2, 21.1, 20.9, 21.0, 12.6)));
        assertThat(history.ageing()).isFalse();
        assertThat(history.change(Figure.FLOOR).verdict()).isEqualTo(Said.APART);
        assertThat(history.sentence())
                .isEqualTo(
                        "This run is the worst so far, by more than the earlier ones lie apart: floor 12.6 MB/s, before"
                                + " 20.9 MB/s to 21.2 MB/s. No trend for the worse over 7 runs.");
        assertThat(history.change(Figure.FLOOR).sentence())
                .isEqualTo("Floor: 12.6 MB/s, before 20.9 MB/s to 21.2 MB/s in 6 earlier runs, median 21 MB/s; no trend"
                        + " for the worse over 7 runs. It is the worst so far, by more than the earlier runs lie apart;"
                        + " chance alone makes the latest of 7 runs the worst once in 7 times.");
        assertThat(Histories.seenByLast(Histories.floors(DAYS, mb(21.0, 20.9, 21.2, 21.1, 20.9, 21.0, 9.85)))
                        .sentence())
                .startsWith("This drive is slow")
                .contains("worst so far, by more")
                .doesNotContain("No change");
    }

    /** A stall where there never was one, beside floors that are as they were: also of two runs, and in one week. */
    @Test
    void aStallWhereThereWasNoneIsSaid() {
        for (double[] days : new double[][] {DAYS, {0, 1, 2, 3, 4}, {0, 30}}) {
            double[] floors = new double[days.length - 1];
            java.util.Arrays.fill(floors, 40e6);
            List<RunRecord> runs =
                    new ArrayList<>(Histories.floors(java.util.Arrays.copyOf(days, days.length - 1), floors));
            runs.addAll(Histories.runs(
                    new double[] {days[days.length - 1]},
                    mb(40),
                    run -> run.phases.get(0).stalls.add(new Stall(10, 1010, 0))));
            assertThat(Histories.seenByLast(runs).sentence())
                    .contains("This run is the worst so far", "longest stall 1.01 s, before ")
                    .doesNotContain("No change");
        }
    }

    @Test
    void theWorstByLittleIsSaidWithItsChance() {
        DriveHistory history =
                Histories.seenByLast(Histories.floors(DAYS, mb(38.0, 41.0, 37.5, 40.2, 37.1, 39.9, 36.4)));
        assertThat(history.sentence())
                .isEqualTo(
                        "This run is the worst so far: floor 36.4 MB/s, before 37.1 MB/s to 41 MB/s; chance alone makes the latest of 7 runs the worst once in 7 times, in each"
                                + " figure. No trend for the worse over 7 runs.");
        // 37.1 less than a hundredth
        assertThat(Histories.seenByLast(Histories.floors(DAYS, mb(38.0, 41.0, 37.5, 40.2, 37.1, 39.9, 36.8)))
                        .sentence())
                .isEqualTo("No change for the worse beyond the usual spread of 6 earlier runs.");
    }

    @Test
    void anotherCapacityIsNoMatterOfUsualSpread() {
        List<RunRecord> runs = new ArrayList<>(Histories.floors(new double[] {0, 30, 60, 90}, mb(40, 41, 40, 41)));
        runs.addAll(Histories.runs(new double[] {120}, mb(40.5), run -> run.sizeBytes = 16_000_000_000L));
        assertThat(Histories.seenByLast(runs).sentence())
                .startsWith("Capacity: 16 GB, before ")
                .endsWith(" No trend for the worse over 5 runs.");
    }

    /** Clearly falling by the test, and by a thousandth of it. */
    @Test
    void aFallTooSmallToMatterIsNone() {
        DriveHistory history = Histories.seenByLast(
                Histories.floors(DAYS, mb(21.006, 21.005, 21.004, 21.003, 21.002, 21.001, 20.997)));
        assertThat(Objects.requireNonNull(history.change(Figure.FLOOR).chance()))
                .isLessThan(0.05);
        assertThat(history.ageing()).isFalse();
        assertThat(history.sentence()).isEqualTo("No change for the worse beyond the usual spread of 6 earlier runs.");
    }

    /**
     * How often a figure that never changes is told to stand apart, with k earlier runs: never oftener than it is the worst
     * of k + 1; where its tail is no longer than an exponential one at most 2 ÷ (k + 1)², which the exponential one itself
     * meets (spacings of its order statistics: Rényi 1953, from memory; the others are concave transforms of it, Barlow
     * and Proschan 1975). Ten thousand series each (seed 31).
     */
    @Test
    void whatStandsApartIsAsRareAsSaid() {
        SplittableRandom random = new SplittableRandom(31);
        int trials = 10_000;
        for (int k : new int[] {4, 6, 10}) {
            double bound = 2.0 / ((k + 1) * (k + 1));
            double exponential = apart(k, trials, () -> -Math.log(1 - random.nextDouble()));
            double even = apart(k, trials, () -> random.nextDouble());
            double bell = apart(k, trials, () -> random.nextDouble() + random.nextDouble() + random.nextDouble());
            double heavy = apart(k, trials, () -> Math.pow(1 - random.nextDouble(), -3));
            double slack = 3.1 * Math.sqrt(bound / trials);
            assertThat(exponential).as("exponential, %d", k).isCloseTo(bound, within(slack + bound * 0.02));
            assertThat(List.of(even, bell)).as("%d", k).allMatch(rate -> rate < bound + slack);
            assertThat(heavy)
                    .as("heavy, %d", k)
                    .isBetween(bound, 1.0 / (k + 1) + 3.1 * Math.sqrt(1.0 / (k + 1) / trials));
        }
    }

    private static double apart(int k, int trials, java.util.function.DoubleSupplier values) {
        int apart = 0;
        for (int trial = 0; trial < trials; trial++) {
            double[] earlier =
                    java.util.stream.DoubleStream.generate(values).limit(k).toArray();
            apart += Change.apart(Figure.PEAK_BACKLOG, values.getAsDouble(), Spread.of(earlier)) ? 1 : 0;
        }
        return apart / (double) trials;
    }

    /**
     * Where nothing changes, ageing is called in at most 5 % of histories over all figures together: 4,000 seeded
     * histories (seed 20) of 5 to 12 runs, floor, backlog, close time and stalls each left to chance.
     */
    @Test
    void falseAlarmsKeepToTheLevel() {
        SplittableRandom random = new SplittableRandom(20);
        int alarms = 0;
        int trials = 4_000;
        for (int trial = 0; trial < trials; trial++) {
            int n = 5 + random.nextInt(8);
            List<Past> pasts = new ArrayList<>();
            for (int i = 0; i < n; i++) {
                pasts.add(chance(i, random));
            }
            List<Change> changes = new Comparing(RunSketch.session("barn-32", 32), pasts.get(n - 1), pasts).changes();
            alarms += changes.stream().anyMatch(change -> change.verdict() == Said.WORSE) ? 1 : 0;
        }
        // a binomial count at 5 % stays below this in 999 of 1,000 cases
        assertThat(alarms / (double) trials).isLessThan(0.05 + 3.1 * Math.sqrt(0.05 * 0.95 / trials));
        assertThat(alarms).isPositive();
    }

    /** A run whose figures are left to chance. */
    private static Past chance(int i, SplittableRandom random) {
        return new Past(
                "run " + i,
                "2026-01-01T00:00:00Z",
                i * 30.0,
                "sound-check",
                "barn-32",
                tracksoak.report.record.facts.Verdict.Outcome.PASS,
                "test",
                List.of(),
                java.util.Map.of(
                        Figure.FLOOR,
                        40e6 + 5e6 * random.nextDouble(),
                        Figure.PEAK_BACKLOG,
                        300 + 100 / (0.05 + random.nextDouble()),
                        Figure.CLOSE_TIME,
                        700 + 50.0 * random.nextInt(5),
                        Figure.LONGEST_STALL,
                        100.0 * random.nextInt(3)));
    }
}

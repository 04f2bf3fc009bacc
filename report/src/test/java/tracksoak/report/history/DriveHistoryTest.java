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
     * with the interval's ends, from the line's middle at day 120 (36 MB/s): 299 and 489 days, ten and 16 months.
     */
    @Test
    void aFallingFloorIsSaidWithItsPaceAndWhenItMeetsTheLimit() {
        DriveHistory history =
                Histories.seenByLast(Histories.floors(DAYS, mb(41.0, 40.2, 37.5, 36.0, 33.1, 31.5, 27.0)));
        assertThat(history.ageing()).isTrue();
        assertThat(history.sentence())
                .isEqualTo("The floor fell from 41 MB/s to 27 MB/s in nine months; at this pace it meets this session's"
                        + " limit of 9.22 MB/s in about twelve months (95 % interval of the pace: in ten months at the"
                        + " soonest, in 16 months at the latest). Found in 7 runs; chance alone makes such a line in"
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
                .isEqualTo("Floor: 38.4 MB/s, no change beyond the usual spread (36.5 MB/s to 41 MB/s in 6"
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
                        "Trends need 5 runs, and 4 can be compared. Floor: 31 MB/s, before 35 MB/s to 41 MB/s in 3 earlier")
                .contains("the worst so far", "once in 4 times");
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
        RunRecord moved = new RunRecord(
                elsewhere.schema(),
                elsewhere.id(),
                elsewhere.tool(),
                elsewhere.startedAt(),
                elsewhere.endedAt(),
                elsewhere.state(),
                elsewhere.stateReason(),
                elsewhere.seed(),
                elsewhere.session(),
                elsewhere.plan(),
                elsewhere.drive(),
                elsewhere.tag(),
                new HostFacts("another system", "amd64", "another processor", 8, null, "17"),
                elsewhere.method(),
                elsewhere.ready(),
                elsewhere.phases(),
                elsewhere.verdict());
        runs.set(1, moved);
        DriveHistory history = Histories.seenByLast(runs);
        assertThat(history.comparable()).hasSize(3);
        assertThat(history.earlier().stream().flatMap(past -> past.differences().stream()))
                .containsExactly(
                        "on another computer, or another system on it: another system, another processor",
                        "filled to 75 %");
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
                        (double) (700 + random.nextInt(5)),
                        Figure.LONGEST_STALL,
                        (double) random.nextInt(3)));
    }
}

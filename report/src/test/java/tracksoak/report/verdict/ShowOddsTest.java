package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.profiles.SessionKind;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.json.RecordJson;

class ShowOddsTest {

    private static final int SECONDS = 3_600;
    private static final long SEED = 77L;

    /** A line-check of an hour with peaks of an exponential law every 20 s or so, on a backlog of 460 ms. */
    private static RunSketch hour(double meanExcessMs) {
        SplittableRandom random = new SplittableRandom(SEED);
        int[] peaks = new int[SECONDS];
        for (int i = 0; i < SECONDS; i++) {
            peaks[i] = random.nextDouble() < 0.05
                    ? (int) (460 - meanExcessMs * Math.log(1 - random.nextDouble()))
                    : 455 + random.nextInt(5);
        }
        return hour(i -> peaks[i]);
    }

    private static RunSketch hour(IntUnaryOperator backlogMs) {
        RunSketch run = RunSketch.goodLineCheck();
        PhaseSketch take = PhaseSketch.take(SECONDS, RunSketch.DEMAND);
        int[] backlog = new int[SECONDS];
        Arrays.setAll(backlog, backlogMs);
        IntColumn none = IntColumn.of(new int[SECONDS]);
        take.series = new Series(none, none, IntColumn.of(backlog), none, none);
        run.phases.set(0, take);
        return run;
    }

    private static Odds odds(RunSketch run) {
        return Objects.requireNonNull(ShowOdds.of(run.session, run.record()));
    }

    /** The truth is known: 180 peaks an hour at 0.05 a second, exponential; the show is 3 h, the buffer 2 s. */
    @Test
    void theIntervalHoldsTheKnownChance() {
        Odds odds = odds(hour(110));
        Odds.Fit fit = Objects.requireNonNull(odds.fit());
        double expected = 3 * SECONDS * 0.05 * Math.exp(-(2000 - 460) / 110.0);
        double truth = -Math.expm1(-expected);
        assertThat(truth).isBetween(1e-4, 1e-3);
        assertThat(fit.leastChance()).isLessThan(truth);
        assertThat(fit.mostChance()).isGreaterThan(truth).isLessThan(0.3);
        assertThat(odds.refused()).isEmpty();
        assertThat(odds.overruns()).isZero();
        // exact Poisson: 1 − exp(−2.9957 × 3 h ÷ 1 h)
        assertThat(odds.countChance()).isCloseTo(1 - Math.exp(-2.9957 * 3), within(1e-4));
        assertThat(odds.sentence())
                .startsWith("The chance that a show of 3 h meets a wait longer than the buffer of 2 s is ")
                .contains("(95 %: ")
                .contains("Simply counting: no wait was longer than the buffer in 60 min");
        assertThat(fit.curve())
                .hasSizeBetween(10, Odds.MOST_LISTED)
                .isSortedAccordingTo((a, b) -> Double.compare(a.everyS(), b.everyS()));
        assertThat(fit.highest()).hasSizeLessThanOrEqualTo(Odds.MOST_LISTED);
        assertThat(fit.peaks()).isGreaterThanOrEqualTo(ShowOdds.LEAST_PEAKS);
    }

    @Test
    void neverTouchesTheVerdictAndStandsInTheRecord() {
        RunRecord run = hour(110).record();
        RunRecord judged = run.withVerdict(Judge.judge(run));
        RunRecord beside = ShowOdds.beside(judged);
        assertThat(Objects.requireNonNull(beside.verdict()).with((Odds) null)).isEqualTo(judged.verdict());
        assertThat(RecordJson.read(RecordJson.bytes(beside))).isEqualTo(beside);
        assertThat(ShowOdds.beside(run)).as("nothing was judged").isEqualTo(run);
        assertThat(ShowOdds.beside(judged)).as("the same each time").isEqualTo(beside);
    }

    @Test
    void aLongerShowOrASmallerBufferHasWorseOdds() {
        RunRecord run = hour(110).record();
        double as = most(run, 3 * SECONDS, 2);
        assertThat(most(run, 6 * SECONDS, 2)).isGreaterThan(as);
        assertThat(most(run, 3 * SECONDS, 1.5)).isGreaterThan(as);
        assertThat(most(run, 3 * SECONDS, 3)).isLessThan(as);
    }

    private static double most(RunRecord run, long lengthS, double bufferS) {
        var session = RunSketch.session("other", 32, SessionKind.RECORDING, lengthS, bufferS);
        Odds odds = Objects.requireNonNull(ShowOdds.of(session, run));
        return Objects.requireNonNull(odds.fit()).mostChance();
    }

    @Test
    void saysWhenNoPeakStandsOut() {
        // one figure for the largest backlog of a take is enough, and that is the buffer margin's
        refused(
                hour(i -> 455 + i % 3),
                "The delays were all alike: but for the computer's own the recorder was 456 ms behind in half of all"
                        + " seconds, and in none by more than 1 ms on top of that.");
    }

    @Test
    void saysWhenThereAreTooFewPeaks() {
        refused(hour(i -> i % 400 == 7 ? 900 + i % 13 : 455), "too few delays: 9 that stand out");
    }

    @Test
    void saysWhenSizesAreOfSeveralKinds() {
        refused(hour(i -> i % 40 == 7 ? i % 80 == 7 ? 700 : 1700 : 455), "of several kinds");
    }

    @Test
    void saysWhenTheDriveChangedMeanwhile() {
        RunSketch base = hour(110);
        int[] values =
                Objects.requireNonNull(base.phases.get(0).series).maxBacklogMs().toArray();
        int[] growing = values.clone();
        for (int i = 0; i < SECONDS; i++) {
            growing[i] += values[i] > 470 ? i / 20 : 0;
        }
        refused(hour(i -> growing[i]), "does not behave the same all along: ");
    }

    @Test
    void delaysOfTheComputerAreTakenOff() {
        RunSketch run = hour(110);
        Series series = Objects.requireNonNull(run.phases.get(0).series);
        int[] backlog = series.maxBacklogMs().toArray();
        int[] host = new int[SECONDS];
        for (int i = 50; i < SECONDS; i += 100) {
            backlog[i] += 1_000;
            host[i] = 1_000;
        }
        Odds clean = odds(run);
        run.phases.get(0).series = new Series(
                series.kib(), series.maxServiceMs(), IntColumn.of(backlog), series.busyMs(), IntColumn.of(host));
        double with = Objects.requireNonNull(odds(run).fit()).mostChance();
        assertThat(with).isCloseTo(Objects.requireNonNull(clean.fit()).mostChance(), within(0.02));
    }

    @Test
    void whereAudioWasLostTheCountSaysItAndThePeaksAreCutThere() {
        SplittableRandom random = new SplittableRandom(SEED + 1);
        int[] backlog = new int[SECONDS];
        Arrays.setAll(backlog, i -> 455);
        int lost = 0;
        RunSketch run = hour(i -> 455);
        for (int i = 20; i < SECONDS - 20; i += 30) {
            int wait = (int) (460 - 400 * Math.log(1 - random.nextDouble()));
            backlog[i + random.nextInt(20)] = Math.min(2_000, wait);
            if (wait >= 2_000) {
                lost++;
                run.phases.get(0).overruns.add(new Overrun(i, 10, 1, 0));
            }
        }
        assertThat(lost).isGreaterThan(0);
        Series series = Objects.requireNonNull(run.phases.get(0).series);
        run.phases.get(0).lostMs = 10;
        run.phases.get(0).series = new Series(
                series.kib(), series.maxServiceMs(), IntColumn.of(backlog), series.busyMs(), series.hostDelayMs());
        Odds odds = odds(run);
        assertThat(odds.overruns()).isEqualTo(lost);
        assertThat(odds.refused()).isEmpty();
        assertThat(Objects.requireNonNull(odds.fit()).chance()).isGreaterThan(0.9);
        var larger = RunSketch.session("other", 32, SessionKind.RECORDING, 3 * SECONDS, 4);
        assertThat(Objects.requireNonNull(ShowOdds.of(larger, run.record())).refused())
                .singleElement()
                .asString()
                .contains("lost audio with a smaller buffer");
    }

    @Test
    void whatTheRunDidNotMeasureIsRefused() {
        RunSketch run = hour(110);
        run.phases.get(0).hostDelays = new HostDelays(2, 400_000, 1, 10, 0, 0, true);
        refused(run, "computer itself was late");
        run = hour(110);
        run.phases.get(0).series = null;
        refused(run, "no figures second by second");
        run = hour(110);
        run.phases.get(0).fault = new Fault(Fault.Kind.IO_ERROR, 5, 5, "write", "no");
        refused(run, "did not come to its end");
        run = hour(110);
        RunRecord record = run.record();
        assertThat(Objects.requireNonNull(ShowOdds.of(RunSketch.session("more", 33), record))
                        .refused())
                .containsExactly("The run used different tracks than this session has.");
        run.state = RunState.RUNNING;
        assertThat(ShowOdds.of(run.session, run.record())).isNull();
        run = hour(110);
        run.phases.remove(0);
        assertThat(ShowOdds.of(run.session, run.record())).isNull();
    }

    private static void refused(RunSketch run, String why) {
        Odds odds = odds(run);
        assertThat(odds.refused()).singleElement().asString().contains(why);
        assertThat(odds.fit()).isNull();
        assertThat(odds.sentence())
                .startsWith("The test cannot say how likely a dropout is.")
                .contains(List.copyOf(odds.refused()).get(0));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            0.0025   | about 1 in 400
            0.0112   | about 1 in 89
            0.000333 | about 1 in 3,000
            0.37     | about 37 %
            0.999    | over 99 %
            1        | over 99 %
            1e-7     | below 1 in a million
            0        | below 1 in a million
            0.0999   | about 1 in 10
            """)
    void chancesAsAPersonSaysThem(double chance, String words) {
        assertThat(OddsWords.about(chance)).isEqualTo(words);
        assertThat(words).contains(OddsWords.chance(chance));
    }

    @Test
    void theLikelierEndComesFirst() {
        assertThat(OddsWords.interval(1.0 / 3000, 1.0 / 90)).isEqualTo("1 in 90 to 1 in 3,000");
        assertThat(OddsWords.interval(0, 1e-9)).isEqualTo("below 1 in a million");
    }
}

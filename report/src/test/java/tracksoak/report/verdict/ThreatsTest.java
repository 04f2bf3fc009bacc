package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Session;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StartFacts;

/** Worked by hand: 32 tracks of 144,000 B/s are 4,608,000 B/s; chunks of 65,536 B last 455.1 ms; buffer 2 s, margins 2. */
class ThreatsTest {

    private static final Session SESSION = RunSketch.session("barn-32", 32);

    @Test
    void aPauseThreatensThatTheBufferWithItsMarginDoesNotHoldBesideAChunk() {
        assertThat(Threats.pauseLimitMs(SESSION)).isCloseTo(2000 / 2.0 - 65_536 / 144.0, within(1e-9));
        assertThat(Threats.pauseLimitMs(SESSION.but().bufferS(20).build())).isEqualTo(1000);
        assertThat(Threats.pauseLimitMs(SESSION.but().bufferS(1).build())).isEqualTo(250);
    }

    @Test
    void whatLiesBetweenTwoPausesMustBeWrittenTwiceAtPace() {
        PhaseSketch fill = steadyFill(100, 20_000);
        fill.stalls.add(new Stall(30, 800, 0));
        fill.stalls.add(new Stall(70, 700, 0));
        fill.stalls.add(new Stall(75, 500, 0));
        Threat threat =
                only(SESSION, List.of(PhaseSketch.take(10, RunSketch.DEMAND).facts(), fill.facts()));
        assertThat(threat.kind()).isEqualTo(Threat.Kind.PAUSE);
        assertThat(threat.seen()).isEqualTo(2);
        assertThat(threat.worst()).isEqualTo(800);
        // from 30 s to 70 s at 20,000 KiB/s; before the first 10 s of the take and 30 s of the fill
        assertThat(threat.gapBytes()).isEqualTo(40L * 20_000 * 1024);
        assertThat(threat.gapS()).isEqualTo(40);
        assertThat(threat.settledAfterS(SESSION)).isCloseTo(2 * 40 * 20_000 * 1024 / 4_608_000.0, within(1e-6));
    }

    @Test
    void ofASinglePauseNobodyKnowsWhenTheNextOneComes() {
        PhaseSketch fill = steadyFill(100, 20_000);
        fill.stalls.add(new Stall(40, 800, 0));
        Threat threat = only(SESSION, List.of(fill.facts()));
        assertThat(threat.gapBytes()).isEqualTo(60L * 20_000 * 1024);
        PhaseFacts take = PhaseSketch.take(1000, 10 * RunSketch.DEMAND).facts();
        assertThat(only(SESSION, List.of(take, fill.facts())).gapBytes())
                .as("with all that was written before")
                .isEqualTo(take.bytes() + 40L * 20_000 * 1024);
    }

    /** A stop by the clock that is met once in a read-back of 2 min may come each half hour. */
    @Test
    void whatTheRunWroteAndLastedBetweenTwoFillsLiesBetweenTheirPausesToo() {
        PhaseSketch first = steadyFill(100, 20_000);
        first.stalls.add(new Stall(90, 800, 0));
        PhaseSketch second = steadyFill(100, 20_000);
        second.stalls.add(new Stall(60, 800, 0));
        PhaseSketch read = PhaseSketch.readBack(1_000_000_000L);
        read.seconds = 500;
        Threat threat = only(SESSION, List.of(first.facts(), read.facts(), second.facts()));
        assertThat(threat.gapBytes()).isEqualTo(90L * 20_000 * 1024);
        assertThat(threat.gapS()).isEqualTo(570);
        assertThat(threat.awaitedBytes())
                .as("40 s were written behind the last, 90 s before the first")
                .isEqualTo(50L * 20_000 * 1024);
    }

    @Test
    void nothingAsksForMoreThanTheSession() {
        Threat rare = new Threat(Threat.Kind.PAUSE, 5000, 1, 100_000_000_000L, 1000, 0, 0, 0);
        assertThat(rare.settledAfterS(SESSION)).isEqualTo(3 * 3600);
        Threat slowClock = new Threat(Threat.Kind.READ_PAUSE, 5000, 1, 0, 400, 0, 0, 0);
        assertThat(slowClock.settledAfterS(SESSION)).isEqualTo(800);
        assertThat(Threats.settledAfterS(SESSION, List.of(rare, slowClock))).isEqualTo(3 * 3600);
        assertThat(Threats.settledAfterS(SESSION, List.of())).isZero();
    }

    /**
     * The buffer holds 2 s, so a pause above 1,544.9 ms beside a chunk of 455.1 ms costs audio. Of one in 1,000 s flat out that comes at random, 19,000 s
     * more hold none with a chance of 1,000 in 20,000; of three, 1,715 s with (1,000 ÷ 2,715)³ = 0.05.
     */
    @Test
    void aPauseThatWouldCostAudioIsNotSettledByLuck() {
        PhaseSketch fill = steadyFill(1_000, 20_000);
        fill.stalls.add(new Stall(500, 1_540, 0));
        assertThat(only(SESSION, List.of(fill.facts())).unlikelyAfterS()).isZero();
        fill.stalls.add(new Stall(600, 1_550, 0));
        Threat one = only(SESSION, List.of(fill.facts()));
        assertThat(one.unlikelyAfterS()).isCloseTo(19_000, within(1e-6));
        assertThat(one.settledAfterS(SESSION)).isCloseTo(19_000, within(1e-6));
        assertThat(one.chance(SESSION, 10_800))
                .as("one in 11,800 s, and shows of 10,800 s")
                .isCloseTo(1 - Math.exp(-10_800 / 11_800.0), within(1e-9));
        fill.stalls.add(new Stall(700, 1_600, 0));
        fill.stalls.add(new Stall(800, 1_600, 0));
        assertThat(only(SESSION, List.of(fill.facts())).unlikelyAfterS()).isCloseTo(1_714.4, within(0.1));
    }

    @Test
    void slowWindowsAreOneThreatByTheGapsBetweenThem() {
        PhaseSketch fill = steadyFill(300, 20_000);
        int[] kib = new int[300];
        java.util.Arrays.fill(kib, 20_000);
        // 12 s at a tenth: every window of 10 s that holds 7 of them or more is below 9,000 KiB/s
        java.util.Arrays.fill(kib, 50, 62, 2_000);
        java.util.Arrays.fill(kib, 200, 212, 2_000);
        fill.series = series(kib, new int[300]);
        fill.bytes = (276L * 20_000 + 24 * 2_000) * 1024;
        Threat threat = only(SESSION, List.of(fill.facts()));
        assertThat(threat.kind()).isEqualTo(Threat.Kind.SLOW);
        assertThat(threat.seen()).isEqualTo(2);
        assertThat(threat.worst()).isEqualTo(2_000 * 1024.0);
        assertThat(threat.gapS()).isEqualTo(150);
        assertThat(threat.gapBytes()).isEqualTo((138L * 20_000 + 12 * 2_000) * 1024);
        // fast from 65 s, when no window holds 7 of them any more, to 197 s, when the first one begins; and from 215 s
        // to the end
        assertThat(threat.awaitedBytes()).isEqualTo((132 - 85) * 20_000L * 1024);
    }

    /**
     * 20,000 KiB/s flat out, and busy for 0.45 of the time at the pace, as 9,000 KiB/s would make it. With the margin of 2 each window below 18,000
     * KiB/s is slow. Busy for 0.25 it is as by 5,000, and none is.
     */
    @Test
    void aWindowIsSlowThatLeavesLessThanThePaceKeepsTheDriveBusyWith() {
        assertThat(Threats.of(SESSION, List.of(busy(0.45), dipping(17_000))))
                .singleElement()
                .satisfies(threat -> {
                    assertThat(threat.kind()).isEqualTo(Threat.Kind.SLOW);
                    assertThat(threat.seen()).isEqualTo(1);
                    assertThat(threat.worst()).isEqualTo(17_000 * 1024.0);
                });
        assertThat(Threats.of(SESSION, List.of(busy(0.45), dipping(18_100)))).isEmpty();
        assertThat(Threats.of(SESSION, List.of(busy(0.25), dipping(17_000)))).isEmpty();
    }

    /**
     * Behind its cache it writes 10,000 KiB/s, before 40,000. Busy for 0.4 in the take before, of which 4,500 KiB/s took 0.1125; behind the cache
     * they take 0.45, so it will be busy for 0.7375, as by 7,375 KiB/s, and with the margin 14,750 are too many.
     */
    @Test
    void behindTheCacheItsBytesTakeLongerAndTheRestAsLong() {
        int[] kib = new int[300];
        java.util.Arrays.fill(kib, 10_000);
        java.util.Arrays.fill(kib, 0, 100, 40_000);
        PhaseSketch fill = steadyFill(300, 20_000);
        fill.series = series(kib, new int[300]);
        fill.bytes = (100L * 40_000 + 200 * 10_000) * 1024;
        assertThat(Threats.of(SESSION, List.of(busy(0.4), fill.facts()))).hasSize(1);
        assertThat(Threats.of(SESSION, List.of(busy(0.15), fill.facts())))
                .as("0.4875, as by 4,875 KiB/s, and 9,750 with the margin")
                .isEmpty();
    }

    /** A write of 13 ms is longer than the 9.1 ms that chunks have where the pace takes as much as 7,000 KiB/s do. */
    @Test
    void writesAreLongThatLeaveNoTimeForWhatThePaceAdds() {
        PhaseFacts fill = faltering(6_000, 13).facts();
        assertThat(Threats.of(SESSION, List.of(fill))).isEmpty();
        assertThat(Threats.of(SESSION, List.of(busy(0.35), fill)))
                .singleElement()
                .satisfies(threat -> assertThat(threat.kind()).isEqualTo(Threat.Kind.FALTER));
    }

    private static PhaseFacts busy(double fraction) {
        PhaseSketch take = PhaseSketch.take(300, RunSketch.DEMAND);
        take.busyFraction = fraction;
        take.hostDelays = new HostDelays(0, 0, 0, 0, 0, 0, true);
        return take.facts();
    }

    /** 20 s at another rate. */
    private static PhaseFacts dipping(int kibPerSecond) {
        int[] kib = new int[300];
        java.util.Arrays.fill(kib, 20_000);
        java.util.Arrays.fill(kib, 50, 70, kibPerSecond);
        PhaseSketch fill = steadyFill(300, 20_000);
        fill.series = series(kib, new int[300]);
        fill.bytes = (280L * 20_000 + 20L * kibPerSecond) * 1024;
        return fill.facts();
    }

    /**
     * Writes of 240 ms for 4 s, four of 64 KiB a second where 20,000 KiB are usual: 0.9872 s of each are lacking. What they bring, at 4,608,000 B/s,
     * is 0.0569 s of audio each, so the backlog grows to 0.9872 + 0.9431 + 0.9431 + 0.9872 s. 14.2 ms a write carry the session.
     */
    @Test
    void longWritesInARowThreatenAsOneLongPauseDoes() {
        PhaseSketch fill = faltering(256, 240);
        Threat threat = only(SESSION, List.of(fill.facts()));
        assertThat(threat.kind()).isEqualTo(Threat.Kind.FALTER);
        assertThat(threat.seen()).isEqualTo(2);
        assertThat(threat.worst()).isCloseTo(3_861, within(1.0));
        assertThat(threat.gapS()).isCloseTo(150, within(1e-6));
        assertThat(threat.gapBytes()).isCloseTo((146L * 20_000 + 4 * 256) * 1024, within(1_000_000L));
        assertThat(Threats.of(SESSION.but().bufferS(20).build(), List.of(fill.facts())))
                .extracting(Threat::kind)
                .as("a buffer of 20 s holds it, but nobody may wait for more than 1 s")
                .containsExactly(Threat.Kind.FALTER);
    }

    /** 5,000 KiB/s are more than the session makes; four writes of 240 ms in a second may leave it with next to nothing. */
    @Test
    void aFewSecondsThatAreSlowerAreNoneUnlessTheirWritesAreLong() {
        assertThat(Threats.of(SESSION, List.of(faltering(5_000, 14).facts()))).isEmpty();
        assertThat(Threats.of(SESSION, List.of(faltering(5_000, 240).facts()))).hasSize(1);
        assertThat(Threats.of(SESSION, List.of(faltering(3_000, 14).facts())))
                .as("1,500 KiB of 4,500 are lacking each second")
                .hasSize(1);
    }

    /**
     * A cache that gives out 6 s before the end is no slow window of 10 s yet, and what is usual is still what was before it. How long that would
     * have gone on was not seen, as with a slow window at the end; 294 s without it lie before, and a take as long as the session writes less.
     */
    @Test
    void aFalterThatGoesOnToTheEndOfTheFillIsSettledByTheWholeSession() {
        int[] kib = new int[300];
        java.util.Arrays.fill(kib, 200_000);
        java.util.Arrays.fill(kib, 294, 300, 1_000);
        PhaseSketch fill = steadyFill(300, 200_000);
        fill.series = series(kib, new int[300]);
        Threat threat = only(SESSION, List.of(fill.facts()));
        assertThat(threat.kind()).isEqualTo(Threat.Kind.FALTER);
        assertThat(threat.awaitedBytes()).isZero();
        assertThat(threat.settledAfterS(SESSION)).isEqualTo(3 * 3600);
        java.util.Arrays.fill(kib, 298, 300, 200_000);
        fill.series = series(kib, new int[300]);
        assertThat(only(SESSION, List.of(fill.facts())).awaitedBytes())
                .as("over before the end, it is awaited for as long as it was away")
                .isGreaterThan(3 * 3600 * 4_608_000L);
    }

    /** Behind its cache each write of it is a pause by itself: they are the slowness, and no more rare than that. A single one may be anything. */
    @Test
    void pausesOfASlownessThatGoesOnToTheEndGoOnToTheEndToo() {
        int[] kib = new int[300];
        java.util.Arrays.fill(kib, 200_000);
        java.util.Arrays.fill(kib, 270, 300, 100);
        PhaseSketch fill = steadyFill(300, 200_000);
        fill.series = series(kib, new int[300]);
        fill.stalls.add(new Stall(280, 3_700, 0));
        assertThat(pauses(fill).awaitedBytes()).isGreaterThan(0);
        fill.stalls.add(new Stall(290, 3_800, 0));
        assertThat(pauses(fill).awaitedBytes()).isZero();
        assertThat(pauses(fill).settledAfterS(SESSION)).isEqualTo(3 * 3600);
        java.util.Arrays.fill(kib, 289, 300, 200_000);
        fill.series = series(kib, new int[300]);
        assertThat(pauses(fill).awaitedBytes()).as("over before the end").isGreaterThan(0);
    }

    private static Threat pauses(PhaseSketch fill) {
        return Threats.of(SESSION, List.of(fill.facts())).stream()
                .filter(threat -> threat.kind() == Threat.Kind.PAUSE)
                .findFirst()
                .orElseThrow();
    }

    /** All tracks change to their next files at once, which takes 1.5 s: takes meet that at the session's pace, if the session does it at all. */
    @Test
    void aChangeOfFilesIsNoFalter() {
        PhaseSketch fill = steadyFill(300, 20_000);
        int[] kib = new int[300];
        int[] service = new int[300];
        int[] flushes = new int[300];
        java.util.Arrays.fill(kib, 20_000);
        java.util.Arrays.fill(service, 30);
        kib[100] = 500;
        kib[101] = 10_000;
        IntColumn none = IntColumn.of(new int[300]);
        fill.series = new Series(IntColumn.of(kib), IntColumn.of(service), none, none, none);
        assertThat(only(SESSION, List.of(fill.facts())).kind()).isEqualTo(Threat.Kind.FALTER);
        flushes[101] = 1_475;
        fill.series = new Series(
                IntColumn.of(kib), IntColumn.of(service), none, none, none, none, none, IntColumn.of(flushes), none);
        assertThat(Threats.of(SESSION, List.of(fill.facts()))).isEmpty();
    }

    @Test
    void whereALongPauseIsKnownItIsCountedAsThatAlone() {
        PhaseSketch fill = faltering(256, 240);
        fill.stalls.add(new Stall(51, 800, 0));
        fill.stalls.add(new Stall(201.5, 900, 0));
        assertThat(only(SESSION, List.of(fill.facts())).kind()).isEqualTo(Threat.Kind.PAUSE);
    }

    @Test
    void whatTheComputerWasLateIsNoFalter() {
        PhaseSketch fill = faltering(256, 240);
        int[] late = new int[300];
        java.util.Arrays.fill(late, 50, 54, 990);
        java.util.Arrays.fill(late, 200, 204, 990);
        Series series = java.util.Objects.requireNonNull(fill.series);
        fill.series = new Series(
                series.kib(), series.maxServiceMs(), series.maxBacklogMs(), series.busyMs(), IntColumn.of(late));
        assertThat(Threats.of(SESSION, List.of(fill.facts()))).isEmpty();
    }

    /** Twice 4 s with so little and so long writes. */
    private static PhaseSketch faltering(int kibPerSecond, int serviceMs) {
        PhaseSketch fill = steadyFill(300, 20_000);
        int[] kib = new int[300];
        int[] service = new int[300];
        java.util.Arrays.fill(kib, 20_000);
        java.util.Arrays.fill(service, 4);
        for (int from : new int[] {50, 200}) {
            java.util.Arrays.fill(kib, from, from + 4, kibPerSecond);
            java.util.Arrays.fill(service, from, from + 4, serviceMs);
        }
        IntColumn none = IntColumn.of(new int[300]);
        fill.series = new Series(IntColumn.of(kib), IntColumn.of(service), none, none, none);
        return fill;
    }

    @Test
    void whatIsStillSlowWhenTheFillEndsIsSettledByTheWholeSessionAlone() {
        PhaseSketch fill = steadyFill(300, 20_000);
        int[] kib = new int[300];
        java.util.Arrays.fill(kib, 20_000);
        java.util.Arrays.fill(kib, 280, 300, 2_000);
        fill.series = series(kib, new int[300]);
        assertThat(only(SESSION, List.of(fill.facts())).settledAfterS(SESSION)).isEqualTo(3 * 3600);
        java.util.Arrays.fill(kib, 292, 300, 20_000);
        fill.series = series(kib, new int[300]);
        assertThat(only(SESSION, List.of(fill.facts())).settledAfterS(SESSION)).isLessThan(3 * 3600);
    }

    /** 100 GB lie before the only one, 20 GB behind it; 3 h of the session are 50 GB, 80 GB take 4 h 49 min. */
    @Test
    void whatComesByMoreBytesThanTheSessionWritesIsNotSettledByItsLength() {
        Threat place = new Threat(Threat.Kind.SLOW, 1e6, 1, 100_000_000_000L, 5_000, 80_000_000_000L, 0, 0);
        assertThat(place.settledAfterS(SESSION)).isCloseTo(80e9 / 4_608_000, within(1e-6));
        Threat soon = new Threat(Threat.Kind.SLOW, 1e6, 1, 100_000_000_000L, 5_000, 49_000_000_000L, 0, 0);
        assertThat(soon.settledAfterS(SESSION)).isEqualTo(3 * 3600);
    }

    @Test
    void aPauseInTheReadBackIsOneToo() {
        PhaseFacts read = reading(3_000);
        Threat threat = only(SESSION, List.of(steadyFill(100, 20_000).facts(), read));
        assertThat(threat.kind()).isEqualTo(Threat.Kind.READ_PAUSE);
        assertThat(threat.gapS()).as("none in the fill before it").isEqualTo(157);
        assertThat(threat.gapBytes()).isZero();
        assertThat(Threats.of(SESSION, List.of(read))).as("without a fill").isEmpty();
    }

    /**
     * Reading or writing, what comes by chance or by the clock is the same: a stop of 3 s in 100 s of fill and 100 s of reading asks for 19 times 200 s
     * without one; with one of 1.55 s in the fill, two in those, for 200 s · (√20 − 1). What the fill shows alone is held against the fill alone.
     */
    @Test
    void aPauseWhileReadingThatWouldCostAudioIsNotSettledByLuckEither() {
        PhaseSketch fill = steadyFill(100, 20_000);
        PhaseFacts read = reading(3_000);
        assertThat(only(SESSION, List.of(fill.facts(), read)).unlikelyAfterS()).isCloseTo(3_800, within(1e-6));
        assertThat(only(SESSION, List.of(fill.facts(), reading(1_540))).unlikelyAfterS())
                .as("the buffer holds it")
                .isZero();
        fill.stalls.add(new Stall(50, 1_550, 0));
        List<Threat> both = Threats.of(SESSION, List.of(fill.facts(), read));
        assertThat(both).extracting(Threat::kind).containsExactly(Threat.Kind.PAUSE, Threat.Kind.READ_PAUSE);
        assertThat(both.get(0).unlikelyAfterS()).isCloseTo(1_900, within(1e-6));
        assertThat(both.get(1).unlikelyAfterS()).isCloseTo(200 * (Math.sqrt(20) - 1), within(1e-6));
    }

    /** 100 s, 600 s and 57 s lie before it, and no take behind it. What the fill showed is settled by what lies between fill and take, as ever. */
    @Test
    void aPauseWhileTheTakeIsReadBackIsOneToo() {
        PhaseFacts fill = steadyFill(100, 20_000).facts();
        PhaseFacts take = PhaseSketch.take(600, RunSketch.DEMAND).facts();
        Threat threat = only(SESSION, List.of(fill, take, reading(3_000)));
        assertThat(threat.kind()).isEqualTo(Threat.Kind.READ_PAUSE);
        assertThat(threat.gapS()).isEqualTo(757);
        assertThat(threat.unlikelyAfterS()).isCloseTo(3_800, within(1e-6));
        PhaseSketch paused = steadyFill(100, 20_000);
        paused.stalls.add(new Stall(30, 800, 0));
        paused.stalls.add(new Stall(70, 800, 0));
        assertThat(Threats.of(SESSION, List.of(paused.facts(), take, reading(3_000))))
                .extracting(Threat::gapS)
                .containsExactly(40.0, 757.0);
    }

    /** 100 s, with one read that came back after 60 s. */
    private static PhaseFacts reading(int ms) {
        PhaseSketch read = PhaseSketch.readBack(1_000_000_000L);
        int[] service = new int[100];
        service[60] = ms;
        IntColumn none = IntColumn.of(new int[100]);
        read.series = new Series(none, IntColumn.of(service), none, none, none);
        read.seconds = 100;
        return read.facts();
    }

    /** 544.9 ms and a chunk of 455.1 ms are 1 s; a fill that fell from 20,000 to 3,000 KiB/s makes 160 ms 1,067 ms. */
    @Test
    void filesThatWouldTakeTooLongAsSlowAsTheFillEndedThreatenTheStart() {
        PhaseFacts fell = rounds(20_000, 3_000);
        assertThat(Threats.leftSlow(SESSION, List.of(began(160), fell))).isTrue();
        assertThat(Threats.of(SESSION, List.of(began(160), fell))).isEmpty();
        assertThat(Threats.leftSlow(SESSION, List.of(began(149), fell)))
                .as("993 ms")
                .isFalse();
        assertThat(Threats.leftSlow(SESSION, List.of(began(1_001), fell)))
                .as("too long by itself")
                .isFalse();
        assertThat(Threats.leftSlow(SESSION, List.of(began(160), fell, rounds(3_000, 20_000))))
                .as("the second fill ended as fast as the first began")
                .isFalse();
        assertThat(Threats.leftSlow(SESSION, List.of(fell)))
                .as("no take before")
                .isFalse();
        assertThat(Threats.leftSlow(SESSION, List.of(began(160)))).as("no fill").isFalse();
    }

    /** Busy for 0.1, and 6.7 times as slow for 0.67, with the margin of 2 more than all of the time; for 0.07 it is 0.93. */
    @Test
    void aPaceThatWouldTakeTooLongAsSlowAsTheFillEndedAsksForRest() {
        PhaseFacts fell = rounds(20_000, 3_000);
        assertThat(Threats.leftSlow(SESSION, List.of(busy(0.1), fell))).isTrue();
        assertThat(Threats.leftSlow(SESSION, List.of(busy(0.07), fell))).isFalse();
        assertThat(Threats.leftSlow(SESSION, List.of(busy(0.1), fell, rounds(3_000, 20_000))))
                .isFalse();
    }

    private static PhaseFacts began(double filesMs) {
        PhaseSketch take = PhaseSketch.take(10, RunSketch.DEMAND);
        take.start = new StartFacts(60, filesMs, null);
        take.busyFraction = 0.05;
        return take.facts();
    }

    private static PhaseFacts rounds(double... kibPerSecond) {
        PhaseSketch fill = PhaseSketch.fill(10 * kibPerSecond.length, 10_000_000);
        FillFacts made = java.util.Objects.requireNonNull(fill.fill);
        fill.fill = new FillFacts(
                made.ended(),
                made.steady(),
                10,
                java.util.Arrays.stream(kibPerSecond).boxed().toList(),
                made.floorBytesPerSecond(),
                made.floorWindowS(),
                null,
                null,
                null,
                made.room());
        return fill.facts();
    }

    private static Threat only(Session session, List<PhaseFacts> phases) {
        List<Threat> threats = Threats.of(session, phases);
        assertThat(threats).hasSize(1);
        return threats.get(0);
    }

    private static PhaseSketch steadyFill(int seconds, int kibPerSecond) {
        PhaseSketch fill = PhaseSketch.fill(seconds, kibPerSecond * 1024.0);
        int[] kib = new int[seconds];
        java.util.Arrays.fill(kib, kibPerSecond);
        fill.series = series(kib, new int[seconds]);
        assertThat(fill.kind).isEqualTo(PhaseKind.FILL);
        return fill;
    }

    private static Series series(int[] kib, int[] hostMs) {
        IntColumn none = IntColumn.of(new int[kib.length]);
        return new Series(IntColumn.of(kib), none, none, none, IntColumn.of(hostMs));
    }
}

package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Session;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.Verdict.Outcome;

/**
 * 32 tracks of 144,000 B/s, 4,500 KiB/s, for 1,000 s: two shows are 9,216,000,000 B. Flat out the drive takes 50,000 KiB/s (51.2 MB/s) until its
 * cache is full, and 2,000 KiB/s then.
 */
class BeyondShowsTest {

    private static final Session SESSION =
            RunSketch.session("barn-32", 32).but().lengthS(1_000).build();

    private static final int FAST = 50_000;
    private static final int SLOW = 2_000;

    /** 1.38 GB in the take and 4.61 GB in the first fill; 3.07 GB of the second, and 0.46 GB of the take behind it, are 9.53 GB. */
    @Test
    void aCacheThatHoldsTwoShowsAndIsFullByTheRunItselfIsNotHeldAgainstTheDrive() {
        RunSketch run = run(60, 100);
        assertThat(Judge.judge(run.record()).outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(Judge.judge(run.record()).sentence()).contains("1.78 s").contains("more than two such shows write");
    }

    /** 1.54 GB of the second fill, and 0.46 GB of the take, leave it at 7.99 GB. */
    @Test
    void oneThatIsFullInTheSecondShowFails() {
        assertThat(Judge.judge(run(30, 100).record()).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(Judge.judge(run(60, 10).record()).outcome())
                .as("9.12 GB: it was full too soon after the rest")
                .isEqualTo(Outcome.FAIL);
    }

    @Test
    void aPauseIsTheDrivesOwnWhateverTheRunDidBefore() {
        RunSketch run = run(60, 100);
        run.phases.get(3).stalls.add(new Stall(99, 1_700, 0));
        assertThat(Judge.judge(run.record()).outcome()).isEqualTo(Outcome.FAIL);
    }

    @Test
    void soIsWhatIsMissedWhileItIsAsFastAsAtFirst() {
        RunSketch run = run(60, 100);
        run.phases.get(3).series = atPace(600, 600);
        assertThat(Judge.judge(run.record()).outcome()).isEqualTo(Outcome.FAIL);
    }

    @Test
    void soIsWhatTheFirstTakeMissed() {
        RunSketch run = run(60, 100);
        run.phases.get(0).peakBacklogMs = 1_800;
        assertThat(Judge.judge(run.record()).outcome()).isEqualTo(Outcome.FAIL);
    }

    /**
     * 9.2 GB until its cache is full, and no take before the fill. At pace it writes 2,000 KiB/s then, as the fill did at its end; 1,000 would be a
     * cost of the pace itself, and that is the drive's own.
     */
    @Test
    void withoutATakeBeforeTheFillItsEndTellsWhatTheRunBroughtAbout() {
        assertThat(Judge.judge(fillFirst(2_000)).outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(Judge.judge(fillFirst(1_000)).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(Judge.judge(fillFirst(4_500)).outcome()).isEqualTo(Outcome.FAIL);
    }

    private static RunRecord fillFirst(int kibPerSecond) {
        RunSketch run = run(60, 100);
        PhaseSketch take = run.phases.get(3);
        int[] kib = new int[600];
        int[] busy = new int[600];
        Arrays.fill(kib, kibPerSecond);
        Arrays.fill(busy, 1_000);
        IntColumn none = IntColumn.of(new int[600]);
        take.series = new Series(IntColumn.of(kib), none, none, IntColumn.of(busy), none);
        run.phases.subList(0, 3).clear();
        run.phases.add(0, fill(200, 180));
        return run.record();
    }

    /** A cache that gives out so many s into the second fill, and so many into the take after it, which falls 1.78 s behind then. */
    private static RunSketch run(int fastS, int goodS) {
        RunSketch run = RunSketch.good();
        run.session = SESSION;
        PhaseSketch before = PhaseSketch.take(300, RunSketch.DEMAND);
        before.series = atPace(300, 300);
        PhaseSketch after = PhaseSketch.take(600, RunSketch.DEMAND);
        after.series = atPace(600, goodS);
        after.peakBacklogMs = 1_780;
        run.phases.set(0, before);
        run.phases.set(1, fill(90, 90));
        run.phases.add(2, fill(120, fastS));
        run.phases.set(3, after);
        after.peakBacklogAtS = goodS + 1.5;
        return run;
    }

    private static PhaseSketch fill(int seconds, int fastS) {
        int[] kib = new int[seconds];
        Arrays.fill(kib, SLOW);
        Arrays.fill(kib, 0, fastS, FAST);
        PhaseSketch fill = PhaseSketch.fill(seconds, 1024.0 * Arrays.stream(kib).sum() / seconds);
        IntColumn none = IntColumn.of(new int[seconds]);
        fill.series = new Series(IntColumn.of(kib), none, none, none, none);
        return fill;
    }

    /** At the session's pace, busy for 90 ms a second, and for all of it from that second on. */
    private static Series atPace(int seconds, int goodS) {
        int[] kib = new int[seconds];
        int[] busy = new int[seconds];
        Arrays.fill(kib, 4_500);
        Arrays.fill(busy, 1_000);
        Arrays.fill(busy, 0, goodS, 90);
        IntColumn none = IntColumn.of(new int[seconds]);
        return new Series(IntColumn.of(kib), none, none, IntColumn.of(busy), none);
    }
}

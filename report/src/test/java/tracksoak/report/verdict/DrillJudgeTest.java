package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.report.record.DrillSketch;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillFile.Use;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillTrack;

/** Seconds are bytes ÷ (48,000 Hz × 3 B), the arithmetic of the trade. */
class DrillJudgeTest {

    private static final long RATE = DrillSketch.RATE;

    /** Made 20 s, readable 10 s on the first track and 18 s on the second: 10 s are lost at worst, all since the flush. */
    @Test
    void whatIsLostIsWhatWasMadeAndCannotBeRead() {
        DrillFindings findings = DrillJudge.of(DrillSketch.twoTracks().record());
        assertThat(findings.worstLostMs()).isCloseTo(10_000, within(1e-6));
        assertThat(findings.worstTrack()).isEqualTo(1);
        assertThat(findings.worstSinceFlushMs()).isCloseTo(10_000, within(1e-6));
        assertThat(findings.worstBrokenMs()).isZero();
        assertThat(findings.filesRepair()).isEqualTo(2);
        assertThat(findings.filesOpen()).isZero();
        assertThat(findings.stoppedLostMs()).isZero();
        assertThat(findings.savedMs()).isCloseTo(10_000, within(1e-6));
        assertThat(findings.sentence()).contains("10 s of audio", "every file needs repair before it opens");
        assertThat(findings.advice()).contains("Stop, wait", "what was flushed survived");
    }

    /** 18 s were written, 10 s of them flushed, and 18 s can be read: flushing more often would have saved nothing. */
    @Test
    void aShorterFlushIntervalIsNotAdvisedWhereAllThatWasWrittenCameBack() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.tracks.set(0, new DrillTrack(1, 1, RATE, 20 * RATE, 0, 18 * RATE, 10 * RATE, 18 * RATE, 0L));
        DrillFindings findings = DrillJudge.of(drill.record());
        assertThat(findings.worstLostMs()).isCloseTo(2_000, within(1e-6));
        assertThat(findings.advice()).startsWith("Stop, wait").doesNotContain("flush");
    }

    /** 10 s were flushed and 4 s can be read: 6 s were confirmed and lost all the same. */
    @Test
    void aBrokenPromiseIsNamed() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.tracks.set(0, new DrillTrack(1, 1, RATE, 20 * RATE, 0, 18 * RATE, 10 * RATE, 4 * RATE, 0L));
        DrillFindings findings = DrillJudge.of(drill.record());
        assertThat(findings.worstBrokenMs()).isCloseTo(6_000, within(1e-6));
        assertThat(findings.sentence()).contains("had been flushed").contains("6 s");
        assertThat(findings.advice()).contains("will not help");
    }

    @Test
    void whatTheRecorderHadLostBeforeIsNotThePulls() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.tracks.set(0, new DrillTrack(1, 1, RATE, 20 * RATE, 3 * RATE, 15 * RATE, 10 * RATE, 10 * RATE, 0L));
        DrillFindings findings = DrillJudge.of(drill.record());
        assertThat(findings.worstLostMs()).isCloseTo(7_000, within(1e-6));
        assertThat(findings.sentence()).contains("had already lost up to 3 s of a track", "the pull has no part in it");
        assertThat(findings.advice()).contains("do not flush it more often").doesNotContain("shorter flush");
    }

    @Test
    void aStoppedTakeThatDidNotSurviveChangesTheAdvice() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.files.set(0, new DrillFile("stopped", true, 1, 5 * RATE, 4096L, 5 * RATE, 2 * RATE, Use.REPAIR));
        DrillFindings findings = DrillJudge.of(drill.record());
        assertThat(findings.stoppedLostMs()).isCloseTo(3_000, within(1e-6));
        assertThat(findings.savedMs()).isCloseTo(7_000, within(1e-6));
        assertThat(findings.advice()).startsWith("Even the take that was stopped first");
    }

    @Test
    void filesAreCountedByWhatTheyAreGoodFor() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.files.add(new DrillFile("a", false, 1, RATE, 4096L, RATE, RATE, Use.OPENS));
        drill.files.add(new DrillFile("b", false, 1, RATE, 0L, null, 0, Use.EMPTY));
        drill.files.add(new DrillFile("c", false, 1, RATE, null, null, 0, Use.GONE));
        DrillFindings findings = DrillJudge.of(drill.record());
        assertThat(findings.filesOpen()).isEqualTo(1);
        assertThat(findings.filesEmpty()).isEqualTo(1);
        assertThat(findings.filesGone()).isEqualTo(1);
        assertThat(findings.sentence())
                .contains("of 5 files 1 opens as it is, 2 must be repaired, 1 holds nothing and 1 is gone.");
    }

    @Test
    void oneFileThatIsGoneIsNotSaidToHoldNothing() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.files.add(new DrillFile("c", false, 1, RATE, null, null, 0, Use.GONE));
        assertThat(DrillJudge.of(drill.record()).sentence()).contains("of 3 files 2 must be repaired and 1 is gone.");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            OPENS  | all files open as they are
            REPAIR | every file needs repair before it opens
            EMPTY  | every file holds nothing
            GONE   | every file is gone
            """)
    void whatIsTrueOfAllFilesIsSaidOnce(Use use, String words) {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.files.removeIf(file -> !file.stoppedFirst());
        drill.files.add(new DrillFile("a", false, 1, RATE, 4096L, RATE, 0, use));
        drill.files.add(new DrillFile("b", false, 2, RATE, 4096L, RATE, 0, use));
        assertThat(DrillJudge.of(drill.record()).sentence()).contains("worst track, and " + words + ".");
    }

    @Test
    void aDrillWithoutTracksCannotBeJudged() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.tracks.clear();
        assertThatThrownBy(drill::record).isInstanceOf(IllegalArgumentException.class);
    }
}

package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tracksoak.report.record.Criterion;
import tracksoak.report.record.PhaseKind;
import tracksoak.report.record.ReadBackFacts;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.Verdict;

class JudgeTest {

    @Test
    void aGoodSoundCheckPasses() {
        Verdict verdict = Judge.judge(RunSketch.good().record());
        assertThat(verdict.reasons()).isEmpty();
        assertThat(verdict.outcome()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(verdict.sentence())
                .isEqualTo(
                        "Trust this drive for Barn theatre, 32 tracks: no audio was lost, and the least margin was 4×"
                                + " (at least 2× asked).");
        assertThat(verdict.criteria().stream().map(Criterion::id))
                .containsExactly(
                        "lost-audio",
                        "buffer-margin",
                        "rate-margin",
                        "longest-stall",
                        "close-time",
                        "intact",
                        "room",
                        "format",
                        "port",
                        "playback");
    }

    @Test
    void aBadBlockFails() {
        RunSketch run = RunSketch.good();
        run.phase(PhaseKind.READ_BACK).readBack =
                new ReadBackFacts(10, 9, 0, 0, 1, 0, 0, 0, ReadBackFacts.Origin.DEVICE, java.util.List.of());
        Verdict verdict = Judge.judge(run.record());
        assertThat(verdict.outcome()).isEqualTo(Verdict.Outcome.FAIL);
        assertThat(verdict.sentence())
                .startsWith("Leave this drive at home for Barn theatre, 32 tracks. The drive does not");
    }
}

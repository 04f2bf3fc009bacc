package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.DeviceEvidence;

/** What a run missed beside other drives, and what on its own. */
class JudgeNeighboursTest {

    private static final long REST = 1 << 20;

    /** So much was moved by others in each of the first three phases: a take, the fill, the take after it. */
    private static RunSketch beside(long first, long fill, long second) {
        RunSketch run = RunSketch.good();
        long[] others = {first, fill, second};
        for (int i = 0; i < others.length; i++) {
            PhaseSketch phase = run.phases.get(i);
            phase.device = new DeviceEvidence(phase.bytes, 0, phase.bytes, null, others[i]);
        }
        return run;
    }

    @Test
    void whatIsMissedInAPhaseOfItsOwnStandsWhateverHappenedInOthers() {
        RunSketch run = beside(1_000_000_000, REST, REST);
        run.phases.get(2).peakBacklogMs = 1500;
        assertThat(Judge.failedAlone(run.record())).isTrue();
    }

    @Test
    void whatIsMissedBesideOthersIsToBeAskedAgain() {
        // 1 MB more than the system asks of drives at rest holds nothing up for 500 ms: a FAIL, and still not a lone
        // one
        RunSketch run = beside(REST, REST, 2 * REST);
        run.phases.get(2).peakBacklogMs = 1500;
        assertThat(Judge.judge(run.record()).outcome()).hasToString("FAIL");
        assertThat(Judge.failedAlone(run.record())).isFalse();
    }

    @Test
    void whereNobodyKnowsWhatOthersMovedNothingStands() {
        RunSketch run = RunSketch.good();
        run.phases.get(2).peakBacklogMs = 1500;
        assertThat(Judge.failedAlone(run.record())).isFalse();
    }

    @Test
    void aRunThatPassesOrSettlesNothingHasNotFailed() {
        assertThat(Judge.failedAlone(beside(REST, REST, REST).record())).isFalse();
        assertThat(Judge.failedAlone(
                        beside(1_000_000_000, 1_000_000_000, 1_000_000_000).record()))
                .isFalse();
    }

    /** USB 2.0 specification, table 5-10: 53,248,000 B/s; 4,608,000 B/s by margins of 2 and 2 is 18,432,000 B/s. */
    @Test
    void aTakeClaimsItsDemandByTheMarginsOfRateAndPort() {
        assertThat(Port.share(RunSketch.session("barn-32", 32), 480))
                .isCloseTo(18_432_000.0 / 53_248_000, within(1e-9));
        // 8 bits in 10 of 5 Gbit/s
        assertThat(Port.share(RunSketch.session("barn-32", 32), 5000)).isCloseTo(18_432_000.0 / 500e6, within(1e-9));
        assertThat(Port.share(RunSketch.session("hall-128", 128), 480)).isGreaterThan(1);
    }
}

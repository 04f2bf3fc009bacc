package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;

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
    void whatNoNeighbourCanCauseStandsBesideAnyOfThem() {
        RunSketch gone = beside(1_000_000_000, 1_000_000_000, 1_000_000_000);
        PhaseSketch back = gone.phase(PhaseKind.READ_BACK);
        back.complete = false;
        back.fault = new Fault(Fault.Kind.GONE, 12, 1_000, "read", "no such device");
        assertThat(Judge.judge(gone.record()).outcome()).hasToString("FAIL");
        assertThat(Judge.failedAlone(gone.record())).isTrue();

        RunSketch hung = beside(1_000_000_000, 1_000_000_000, 1_000_000_000);
        hung.phases.get(1).fault = new Fault(Fault.Kind.HUNG, 12, 1_000, "write", "never came back");
        assertThat(Judge.failedAlone(hung.record())).isTrue();

        RunSketch wrong = RunSketch.good();
        ReadBackFacts good = Objects.requireNonNull(wrong.phase(PhaseKind.READ_BACK).readBack);
        wrong.phase(PhaseKind.READ_BACK).readBack =
                new ReadBackFacts(good.blocks(), good.blocks() - 3, 0, 0, 3, 0, 0, 0, good.fromDevice(), List.of());
        assertThat(Judge.failedAlone(wrong.record())).isTrue();

        RunSketch small = RunSketch.good();
        small.freeBytes = 1_000_000_000L;
        assertThat(Judge.failedAlone(small.record())).isTrue();
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

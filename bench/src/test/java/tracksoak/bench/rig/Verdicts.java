package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;

/** Asks records what the tests want to know, and says all of it when the answer is wrong. */
final class Verdicts {

    private Verdicts() {}

    static Verdict verdict(RunRecord record) {
        return Objects.requireNonNull(record.verdict(), "no verdict");
    }

    /** The outcome, and that at least these criteria were missed. */
    static void failed(RunRecord record, String... missed) {
        assertThat(verdict(record).outcome()).as(told(record)).isEqualTo(Outcome.FAIL);
        assertThat(missed(record)).as(told(record)).contains(missed);
    }

    /** FAIL by these criteria and by no other. */
    static void failedOnlyBy(RunRecord record, String... missed) {
        failed(record, missed);
        assertThat(missed(record)).as(told(record)).containsExactlyInAnyOrder(missed);
    }

    static void passed(RunRecord record) {
        assertThat(verdict(record).outcome()).as(told(record)).isEqualTo(Outcome.PASS);
        assertThat(missed(record)).isEmpty();
    }

    /** PASS, or NO VERDICT as the computer was busy with something else; the drive is blamed for nothing. */
    static void passedUnlessTheHostWasLate(RunRecord record) {
        assertThat(verdict(record).outcome()).as(told(record)).isIn(Outcome.PASS, Outcome.NO_VERDICT);
        assertThat(missed(record)).as(told(record)).isEmpty();
        if (verdict(record).outcome() == Outcome.NO_VERDICT) {
            assertThat(verdict(record).reasons().toString()).as(told(record)).contains("computer");
        }
    }

    static void noVerdict(RunRecord record) {
        assertThat(verdict(record).outcome()).as(told(record)).isEqualTo(Outcome.NO_VERDICT);
        assertThat(verdict(record).reasons()).isNotEmpty();
    }

    static List<String> missed(RunRecord record) {
        return verdict(record).criteria().stream()
                .filter(criterion -> Boolean.FALSE.equals(criterion.met()))
                .map(Criterion::id)
                .toList();
    }

    static Criterion criterion(RunRecord record, String id) {
        return verdict(record).criteria().stream()
                .filter(criterion -> criterion.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no criterion " + id));
    }

    /** The phase of this kind done last. */
    static PhaseFacts phase(RunRecord record, PhaseKind kind) {
        return record.phases().stream()
                .filter(phase -> phase.kind() == kind)
                .reduce((first, last) -> last)
                .orElseThrow(() -> new AssertionError("no " + kind + " in " + told(record)));
    }

    /** What ended the run early. */
    static Fault fault(RunRecord record) {
        return record.phases().stream()
                .map(PhaseFacts::fault)
                .filter(Objects::nonNull)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no fault in " + told(record)));
    }

    /** The whole answer in words, for a test that goes wrong. */
    static String told(RunRecord record) {
        Verdict verdict = verdict(record);
        return verdict.outcome() + ": " + verdict.sentence() + "\n"
                + verdict.criteria().stream()
                        .map(c -> "  " + c.id() + " met " + c.met() + (c.decidedByHost() ? " (host) " : " ")
                                + c.measured() + " | " + c.sentence())
                        .collect(Collectors.joining("\n"))
                + "\n  reasons " + verdict.reasons() + "\n"
                + record.phases().stream()
                        .map(p -> "  " + p.kind() + " " + p.seconds() + " s, " + p.bytes() + " B, lost " + p.lostMs()
                                + " ms, peak " + p.peakBacklogMs() + " ms, busy " + p.busyFraction() + ", stalls "
                                + p.stalls() + ", fault " + p.fault() + ", host " + p.hostDelays() + ", read-back "
                                + p.readBack() + ", fill " + p.fill() + ", device " + p.device())
                        .collect(Collectors.joining("\n"))
                + "\n  state " + record.state() + " " + record.stateReason() + " "
                + Arrays.asList(record.method().ioMode(), record.method().ioReason());
    }
}

package tracksoak.report.verdict;

import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** From "stop" to "safe to unplug". */
final class CloseTime implements Rule {

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().closeMs();
        FindingDraft draft = new FindingDraft(CriterionId.CLOSE_TIME, "at most " + Units.ms(need), need, "ms");
        PhaseFacts phase = run.close;
        CloseFacts close = phase == null ? null : phase.close();
        if (phase == null || close == null) {
            return draft.open("Not tested: the run did not come to the close.");
        }
        double took = close.totalMs();
        draft.measured(Units.ms(took), took).margin(took > 0 ? need / took : Double.POSITIVE_INFINITY);
        draft.spoilt(run.slept(run.phases(PhaseKind.CLOSE)));
        Blame blame = Blame.of(
                phase,
                run,
                took > need,
                ms -> took - Blame.hostMs(phase) - ms > need,
                took - Blame.detourMs(phase, run.ioMode()) > need);
        return draft.judged(
                blame,
                run.carry,
                phase.complete(),
                "From stop to safe to unplug took " + Units.ms(took) + ".",
                "From stop to safe to unplug took " + Units.ms(took) + ", and " + Units.ms(need)
                        + " is the most allowed.");
    }
}

package tracksoak.report.verdict;

import java.util.Map;
import tracksoak.profiles.SessionKind;
import tracksoak.report.record.facts.CriterionId;

/** A criterion that means something only for some kinds of session. A miss stands whatever the kind. */
final class ForKinds implements Rule {

    private final Rule rule;
    private final Map<SessionKind, String> doesNotApply;

    /**
     * Bounds a rule.
     *
     * @param doesNotApply the kinds it does not apply to, and why
     */
    ForKinds(Rule rule, Map<SessionKind, String> doesNotApply) {
        this.rule = rule;
        this.doesNotApply = doesNotApply;
    }

    @Override
    public Finding judge(JudgedRun run) {
        Finding finding = rule.judge(run);
        String why = doesNotApply.get(run.session.kind());
        if (why == null || finding.missed()) {
            return finding;
        }
        var criterion = finding.criterion();
        return new FindingDraft(
                        CriterionId.of(criterion.id()).orElseThrow(),
                        criterion.needed(),
                        criterion.neededValue(),
                        criterion.unit())
                .untested("Does not apply: " + why);
    }
}

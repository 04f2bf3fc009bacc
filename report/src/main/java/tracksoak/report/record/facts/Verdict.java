package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the facts mean for one session.
 *
 * @param outcome PASS, FAIL or NO_VERDICT
 * @param sentence one plain sentence
 * @param scope what the verdict covers: plan, hours observed, bytes written, part of the drive
 * @param session name of the session it is judged for
 * @param criteria one per criterion, in the fixed order
 * @param reasons why there is no verdict, one sentence each; empty otherwise
 * @param notes what the reader should know besides, one sentence each
 * @param estimate what a replay of the run's service times says where the facts themselves allow no verdict; null without
 *     one. It never changes the outcome
 * @param odds the chance that a show meets a wait longer than the buffer; null where nobody asked. Never a criterion
 */
public record Verdict(
        Outcome outcome,
        String sentence,
        String scope,
        String session,
        List<Criterion> criteria,
        List<String> reasons,
        List<String> notes,
        @Nullable Estimate estimate,
        @Nullable Odds odds) {

    /** A verdict alone. */
    public Verdict(
            Outcome outcome,
            String sentence,
            String scope,
            String session,
            List<Criterion> criteria,
            List<String> reasons,
            List<String> notes) {
        this(outcome, sentence, scope, session, criteria, reasons, notes, null, null);
    }

    /** Whether audio was lost: odds of what has happened say nothing. */
    public boolean lostAudio() {
        return criteria.stream().anyMatch(criterion -> criterion.is(CriterionId.LOST_AUDIO) && criterion.missed());
    }

    /** The same verdict with an estimate beside it. */
    public Verdict with(Estimate newEstimate) {
        return new Verdict(outcome, sentence, scope, session, criteria, reasons, notes, newEstimate, odds);
    }

    /** The same verdict with the odds for the show beside it. */
    public Verdict with(@Nullable Odds newOdds) {
        return new Verdict(outcome, sentence, scope, session, criteria, reasons, notes, estimate, newOdds);
    }

    /** The three answers. */
    public enum Outcome {
        PASS,
        FAIL,
        NO_VERDICT;

        /** As people read it: {@code NO VERDICT}. */
        public String words() {
            return name().replace('_', ' ');
        }
    }

    public Verdict {
        criteria = List.copyOf(criteria);
        reasons = List.copyOf(reasons);
        notes = List.copyOf(notes);
    }
}

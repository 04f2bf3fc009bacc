package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a climb came to.
 *
 * @param outcome PASS if a number was confirmed with every margin met, FAIL if not even the lowest was, else NO_VERDICT
 * @param sentence the answer in one plain sentence
 * @param withMargin how far with every criterion met
 * @param beforeLoss how far before audio is lost; null if that was not asked
 * @param reasons why there is no answer, one sentence each; empty otherwise
 * @param notes what the reader should know besides, one sentence each
 */
public record ClimbResult(
        Verdict.Outcome outcome,
        String sentence,
        Edge withMargin,
        @Nullable Edge beforeLoss,
        List<String> reasons,
        List<String> notes) {

    public ClimbResult {
        reasons = List.copyOf(reasons);
        notes = List.copyOf(notes);
    }

    /** What is known of one edge. */
    public enum How {
        /** A sound-check held at {@code at}. */
        CONFIRMED,
        /** Not even the lowest rung held. */
        NONE,
        /** Looks came to nothing: three times, or once for a reason that another look would meet again. */
        UNSURE,
        /** The climb ended before it was settled. */
        UNFINISHED
    }

    /**
     * The last rung that held.
     *
     * @param how what is known
     * @param at tracks or Hz confirmed by a sound-check, null unless {@code CONFIRMED}
     * @param missedAt the next value above, which did not hold; null if none was tried or known
     * @param missed criteria missed there
     */
    public record Edge(
            How how, @Nullable Integer at, @Nullable Integer missedAt, List<String> missed) {
        public Edge {
            missed = List.copyOf(missed);
        }
    }
}

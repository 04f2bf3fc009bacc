package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a run would probably have said for another session, from its service times played through the recorder again. No run
 * stands behind it: it is shown beside the verdict, never in its place, and trusts no drive.
 *
 * @param outcome PASS only if the cautious replay meets every criterion, FAIL only if the hopeful one misses some, else
 *     NO_VERDICT
 * @param sentence one plain sentence that says it is an estimate
 * @param refused why nothing was replayed, one sentence each; empty where it was
 * @param figures what was replayed, hopeful and cautious; empty where nothing was
 */
public record Estimate(Verdict.Outcome outcome, String sentence, List<String> refused, List<Figure> figures) {

    public Estimate {
        refused = List.copyOf(refused);
        figures = List.copyOf(figures);
    }

    /**
     * One criterion, estimated.
     *
     * @param id word of the criterion
     * @param needed what the session asks, in words with its unit
     * @param hopeful what the hopeful replay gave, in words with its unit
     * @param cautious what the cautious replay gave, in words with its unit
     * @param hopefulMet whether that meets the criterion, null if it cannot be told
     * @param cautiousMet whether the cautious one does, null if it cannot be told
     */
    public record Figure(
            String id,
            String needed,
            String hopeful,
            String cautious,
            @Nullable Boolean hopefulMet,
            @Nullable Boolean cautiousMet) {}
}

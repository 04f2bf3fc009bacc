package tracksoak.report.verdict;

import java.util.List;
import tracksoak.report.record.facts.Criterion;

/**
 * One criterion judged.
 *
 * @param criterion the criterion as the record shows it
 * @param withholds where it is neither met nor missed: whether that keeps a PASS from being given
 * @param otherwise where it is neither met nor missed: whether that has another cause than that the run went no further
 * @param lasting where it is neither met nor missed: whether another run of the same session and plan, on the same drive and
 *     computer, is bound to leave it so again
 * @param notes what the reader should know besides
 */
record Finding(Criterion criterion, boolean withholds, boolean otherwise, boolean lasting, List<String> notes) {

    Finding {
        notes = List.copyOf(notes);
    }

    boolean missed() {
        return Boolean.FALSE.equals(criterion.met());
    }

    boolean open() {
        return criterion.met() == null;
    }
}

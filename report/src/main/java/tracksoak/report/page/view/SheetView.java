package tracksoak.report.page.view;

import java.util.List;

/**
 * The whole report.
 *
 * @param kind what kind of sheet it is
 * @param title title of the document
 * @param policy content security policy
 * @param styles style sheets, trusted
 * @param chartLibrary script that can draw charts, trusted; empty where none is drawn
 * @param pageScript script that draws ours, trusted
 * @param chartData the data island, already free of {@code <}
 * @param first what stands unfolded under the criteria: the one picture that matters
 * @param sections the evidence, folded
 * @param recordJson the run record, exactly as it is stored
 * @param fileName name offered for the downloaded record
 * @param recordSize its size in words
 */
public record SheetView(
        SheetKind kind,
        String title,
        String policy,
        String styles,
        String chartLibrary,
        String pageScript,
        String chartData,
        VerdictView verdict,
        List<CriterionView> criteria,
        List<Block> first,
        List<Section> sections,
        String recordJson,
        String fileName,
        String recordSize,
        String tool,
        String runId) {

    public SheetView {
        criteria = List.copyOf(criteria);
        first = List.copyOf(first);
        sections = List.copyOf(sections);
    }

    /** Those missed, open, met and not tested, in this order. */
    public List<CriterionView> criteriaByWeight() {
        return List.of("missed", "open", "met", "untested").stream()
                .flatMap(state -> criteria.stream().filter(it -> it.state().equals(state)))
                .toList();
    }

    /** The criteria in one line: {@code 2 missed, 1 open, 5 met, 2 not tested}. */
    public String criteriaCounted() {
        StringBuilder words = new StringBuilder();
        for (String state : List.of("missed", "open", "met", "untested")) {
            long count =
                    criteria.stream().filter(it -> it.state().equals(state)).count();
            if (count > 0) {
                words.append(words.isEmpty() ? "" : ", ")
                        .append(count)
                        .append(state.equals("untested") ? " not tested" : " " + state);
            }
        }
        return words.toString();
    }
}

package tracksoak.report.page.view;

import java.util.List;

/**
 * The whole report.
 *
 * @param title title of the document
 * @param policy content security policy
 * @param styles style sheets, trusted
 * @param chartLibrary script that can draw charts, trusted
 * @param pageScript script that draws ours, trusted
 * @param chartData the data island, already free of {@code <}
 * @param recordJson the run record, exactly as it is stored
 * @param fileName name offered for the downloaded record
 * @param recordSize its size in words
 */
public record SheetView(
        String title,
        String policy,
        String styles,
        String chartLibrary,
        String pageScript,
        String chartData,
        VerdictView verdict,
        List<CriterionView> criteria,
        List<Section> sections,
        String recordJson,
        String fileName,
        String recordSize,
        String tool,
        String runId) {

    public SheetView {
        criteria = List.copyOf(criteria);
        sections = List.copyOf(sections);
    }
}

package tracksoak.report.page;

import java.util.List;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.RunRecord;

/** Makes one section of the sheet from a record. A new section is a new part in {@link ReportPage}'s list. */
interface Part {

    /**
     * The section.
     *
     * @param charts takes the charts the section shows
     */
    Section of(RunRecord record, List<ChartData> charts);
}

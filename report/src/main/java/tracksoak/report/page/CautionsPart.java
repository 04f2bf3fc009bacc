package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.RunRecord;

/** How not to come to harm, and not to bring the next show to harm. */
final class CautionsPart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<String> cautions = new ArrayList<>();
        cautions.add("Never play test files through a PA or headphones: as audio they are full-scale noise.");
        cautions.add("Never test a drive that holds the only copy of anything.");
        cautions.add("Flush and eject before you unplug, here and at the desk.");
        cautions.add("Do not move a spinning disk while it runs, and keep it away from loud sources.");
        cautions.add("Use at the show the cable and port you tested with, and no hub that was not in the test.");
        cautions.add("Keep the drive cool, and let it come to room temperature after a cold van.");
        cautions.add("Record to two drives where the desk can: a pass makes one failure unlikely, not impossible.");
        return new Section(
                "cautions",
                "Cautions",
                "How not to come to harm, nor the next show",
                "",
                List.of(Bullets.of(cautions)));
    }
}

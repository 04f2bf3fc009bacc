package tracksoak.report.page;

import java.util.List;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.RunRecord;

/** What it takes to make the same run again. */
final class RepeatPart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        PlanFacts plan = record.plan();
        return new Section(
                "repeat",
                "To repeat this run",
                "The same bytes come from the same seed",
                "seed " + record.seed(),
                List.of(
                        Prose.of("The same seed writes the same bytes. The same drive may still answer differently:"
                                + " it is fuller, older or warmer."),
                        Facts.about("Run")
                                .row("Run", record.id())
                                .row("Tool", record.tool())
                                .row("Record", record.schema())
                                .row("Seed", record.seed().toString())
                                .row("Started", Times.minute(record.startedAt()))
                                .row(
                                        "Ended",
                                        record.endedAt() == null ? "no end on record" : Times.minute(record.endedAt()))
                                .row("Plan", plan.name() + (plan.shortened() ? ", shortened" : ""))
                                .row("Take before the fill", length(plan.takeBeforeS()))
                                .row("Fill at most", length(plan.fillCapS()))
                                .row("Take after", length(plan.takeAfterS()))
                                .row("Bytes planned at most", Units.bytes(plan.bytesPlanned()))
                                .build()));
    }

    private static String length(double s) {
        return s > 0 ? Units.seconds(s) : "none";
    }
}

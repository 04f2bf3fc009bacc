package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.json.RecordJson;

/**
 * The report of one run as one HTML file that opens from disk and works offline. Any thread; the same
 * record gives the same page on every computer.
 */
public final class ReportPage {

    private static final List<Part> PARTS = List.of(
            new BacklogPart(),
            new CurvesPart(),
            new PlaybackPart(),
            new FillPart(),
            new StallsPart(),
            new ClosePart(),
            new ReadBackPart(),
            new PhasesPart(),
            new DrivePart(),
            new SessionPart(),
            new MethodPart(),
            new LimitsPart(),
            new CautionsPart(),
            new RepeatPart());

    private ReportPage() {}

    /**
     * The page of a judged record.
     *
     * @throws IllegalArgumentException if the record has no verdict yet
     * @throws tracksoak.report.record.facts.RecordException if a figure in it is no number or out of bounds
     */
    public static String render(RunRecord record) {
        return render(record, null);
    }

    /** The same with what became of the drive over earlier runs, where that is known. */
    public static String render(RunRecord record, @Nullable DriveHistory history) {
        Verdict verdict = record.verdict();
        if (verdict == null) {
            throw new IllegalArgumentException("run " + record.id() + " has no verdict yet: judge it first");
        }
        List<ChartData> charts = new ArrayList<>();
        List<Block> first = BacklogPart.worst(record, charts);
        List<Section> sections = new ArrayList<>();
        if (verdict.estimate() != null) {
            sections.add(EstimatePart.of(verdict.estimate()));
        }
        if (history != null) {
            sections.add(HistoryPart.of(history, charts));
        }
        KeepsakePart.of(record).ifPresent(sections::add);
        if (verdict.odds() != null && !verdict.lostAudio()) {
            sections.add(OddsPart.of(verdict.odds(), charts));
        }
        PARTS.stream()
                .map(part -> part.of(record, charts))
                .filter(section -> !section.blocks().isEmpty())
                .forEach(sections::add);
        return SheetFile.render(
                new SheetFile.About(SheetKind.RUN, record.id(), record.tool(), RecordJson.write(record)),
                verdict.outcome().words() + ": " + VerdictHead.drive(record).text(),
                new SheetFile.Content(
                        VerdictHead.of(record, verdict, history),
                        VerdictHead.criteria(verdict),
                        first,
                        sections,
                        charts));
    }

    /** The content security policy of every report: its own script by its hash, and nothing from anywhere else. */
    public static String policy() {
        return SheetAssets.policy(SheetAssets.chartLibrary(), SheetAssets.pageScript());
    }

    /** The style sheet of the page, for other pages that look like it. */
    public static String styles() {
        return SheetAssets.styles();
    }
}

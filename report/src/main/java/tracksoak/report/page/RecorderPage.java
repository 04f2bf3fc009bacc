package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Lanes;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetKind;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;

/** The sheet of a recorder: how it writes and how much it holds, as one HTML file that opens from disk and works offline. Any thread. */
public final class RecorderPage {

    private RecorderPage() {}

    /**
     * What a sheet shows.
     *
     * @param id of the trace it was told from
     * @param tool what made it
     * @param json everything, for programs
     * @param recordedAt when the trace began
     * @param sentence the most important, one sentence
     * @param warnings what makes it doubtful, one sentence each
     * @param learned rows of what, value and evidence
     * @param measured whether its buffer was measured
     * @param buffer how much it holds, a sentence each; none where it was not measured
     * @param against how another recording differs, a sentence each; none where there is none
     * @param drawing its pattern
     */
    public record Sheet(
            String id,
            String tool,
            String json,
            String recordedAt,
            String sentence,
            List<String> warnings,
            List<List<String>> learned,
            boolean measured,
            List<String> buffer,
            List<String> against,
            Lanes drawing) {

        public Sheet {
            warnings = List.copyOf(warnings);
            learned = List.copyOf(learned);
            buffer = List.copyOf(buffer);
            against = List.copyOf(against);
        }
    }

    /** The page. */
    public static String render(Sheet sheet) {
        List<Section> sections = new ArrayList<>();
        List<Block> pattern = List.of(new Grid(
                "What was learnt, and what shows it",
                List.of("What", "Value", "Evidence"),
                sheet.learned().stream()
                        .map(row -> row.stream().map(Shown::whole).toList())
                        .toList()));
        sections.add(new Section(
                "pattern",
                "Its pattern",
                "How it writes, value by value, and what shows it",
                sheet.learned().isEmpty() ? "" : Count.of(sheet.learned().size(), "value"),
                pattern));
        bullets(
                "buffer",
                "Its buffer",
                "How long it keeps audio when the drive stands still",
                sheet.buffer(),
                sections);
        bullets(
                "against",
                "Held against another recording",
                "Whether it wrote the same way the second time",
                sheet.against(),
                sections);
        return SheetFile.render(
                new SheetFile.About(SheetKind.RECORDER, sheet.id(), sheet.tool(), sheet.json()),
                "Recorder, measured on a stand-in",
                new SheetFile.Content(head(sheet), List.of(), List.of(sheet.drawing()), sections, null));
    }

    private static void bullets(String id, String title, String meta, List<String> lines, List<Section> sections) {
        if (!lines.isEmpty()) {
            sections.add(new Section(id, title, meta, "", List.of(Bullets.of(lines))));
        }
    }

    private static VerdictView head(Sheet sheet) {
        return new VerdictView(
                "drill",
                "RECORDER",
                Shown.whole(sheet.sentence()),
                Shown.whole("This sheet shows how the recorder wrote to a drive made of software. It judges no drive."),
                Shown.of("Recorder on a stand-in"),
                Facts.about("")
                        .row("Recorded on", Times.minute(sheet.recordedAt()))
                        .row("Buffer", sheet.measured() ? "measured" : "not measured")
                        .build()
                        .rows(),
                sheet.warnings().stream().map(Shown::whole).toList(),
                Shown.whole(
                        sheet.measured()
                                ? "Use the session that was written for every test of a drive for this recorder."
                                : "Measure its buffer: tracksoak stand-in probe."),
                List.of(),
                List.of());
    }
}

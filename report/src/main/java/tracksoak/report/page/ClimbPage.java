package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetKind;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.json.RecordFormats;

/**
 * The answer of one climb as one HTML file that opens from disk and works offline. Any thread; the same
 * record gives the same page on every computer.
 */
public final class ClimbPage {

    private ClimbPage() {}

    /**
     * The page of a climb that is over.
     *
     * @throws IllegalArgumentException if the record has no result yet
     * @throws tracksoak.report.record.facts.RecordException if a figure in it is no number or out of bounds
     */
    public static String render(ClimbRecord record) {
        ClimbResult result = record.result();
        if (result == null) {
            throw new IllegalArgumentException("climb " + record.id() + " has no result yet");
        }
        List<ChartData> charts = new ArrayList<>();
        List<Block> first = ClimbLooks.curve(record, charts);
        List<Section> sections = List.of(ClimbLooks.all(record), how(record), drive(record), limits(record));
        return SheetFile.render(
                new SheetFile.About(SheetKind.CLIMB, record.id(), record.tool(), RecordFormats.CLIMB.write(record)),
                ClimbWords.stamp(record, result) + ": "
                        + VerdictHead.drive(record.drive()).text(),
                new SheetFile.Content(head(record, result), List.of(), first, sections, charts));
    }

    private static VerdictView head(ClimbRecord record, ClimbResult result) {
        List<Shown> warnings = new ArrayList<>();
        if (record.ioMode() == IoMode.SIMULATED) {
            warnings.add(Shown.whole("This drive is simulated: the sheet says nothing about any real one."));
        }
        if (record.plan().shortened()) {
            warnings.add(Shown.whole("Shortened climb: this does not count as a full one."));
        }
        return new VerdictView(
                VerdictHead.state(result.outcome()),
                ClimbWords.stamp(record, result),
                Shown.whole(result.sentence()),
                Shown.whole(ClimbWords.scope(record)),
                VerdictHead.drive(record.drive()),
                Facts.about("")
                        .row("Serial number", record.drive().serial())
                        .row("Session", record.session().title())
                        .row("Grows", record.ladder().grows() == ClimbRecord.Grows.TRACKS ? "tracks" : "sample rate")
                        .row("Margins asked", ClimbWords.margins(record))
                        .row("Recorder's buffer", Units.seconds(record.session().bufferS()))
                        .row("Climbed on", Times.minute(record.startedAt()))
                        .build()
                        .rows(),
                warnings,
                Shown.whole(ClimbWords.advice(record, result)),
                result.reasons().stream().map(Shown::whole).toList(),
                result.notes().stream().map(Shown::whole).toList());
    }

    private static Section how(ClimbRecord record) {
        ClimbRecord.Plan plan = record.plan();
        FillFacts fill = record.fill();
        return new Section(
                "how",
                "How it was found",
                "A fill, short takes of more and more, and a sound-check of each answer",
                "",
                List.of(Facts.about("Fill, short takes, sound-checks")
                        .row("Fill before the takes", fill == null ? "not finished" : ClimbWords.fill(fill))
                        .row("Short takes", Units.seconds(plan.shortTakeS()) + " each, on the filled drive")
                        .row(
                                "Sound-checks",
                                "takes of " + Units.seconds(plan.check().takeBeforeS()) + " and "
                                        + Units.seconds(plan.check().takeAfterS()) + ", with a fill of at most "
                                        + Units.seconds(plan.check().fillCapS()) + " between them, all read back")
                        .row("Tried", ClimbWords.ladder(record))
                        .row(
                                record.ladder().grows() == ClimbRecord.Grows.TRACKS
                                        ? "One track more"
                                        : "One step more",
                                plan.proveAbove()
                                        ? "shown to be too much by a sound-check"
                                        : "seen to be too much in a take or a sound-check")
                        .build()));
    }

    private static Section drive(ClimbRecord record) {
        Long size = record.drive().fileSystemBytes();
        Long free = record.drive().freeBytes();
        Double link = record.drive().linkMbps();
        return new Section(
                "drive",
                "The drive",
                "As the computer sees it",
                size == null ? "" : Units.bytes(size),
                List.of(Facts.about("As it was found")
                        .row("Maker", record.drive().maker())
                        .row("Model", record.drive().model())
                        .row("File system", TradeName.orNull(record.drive().fileSystem()))
                        .row("Capacity", size == null ? null : Units.bytes(size))
                        .row("Free before", free == null ? null : Units.bytes(free))
                        .row("Port", link == null ? null : Math.round(link) + " Mbit/s")
                        .build()));
    }

    private static Section limits(ClimbRecord record) {
        List<String> limits = new ArrayList<>();
        limits.add("The number is for this session's other values: "
                + Units.seconds(record.session().bufferS()) + " of buffer, chunks of "
                + Units.bytes(record.session().chunkBytes()) + ", "
                + record.session().writers()
                + (record.session().writers() == 1 ? " write" : " writes") + " in flight. Others give other numbers.");
        limits.add("What happens more rarely than once in a sound-check was not seen.");
        limits.add("A drive in use by others, hotter, fuller or older carries less: leave some tracks in hand.");
        limits.add(
                "Never test a drive that holds the only copy of anything, and never play the test files: as audio they"
                        + " are full-scale noise.");
        return new Section(
                "limits",
                "What this does not prove",
                "What can still go wrong, and how to be careful",
                "",
                List.of(Bullets.of(limits)));
    }
}

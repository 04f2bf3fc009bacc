package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetKind;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFormats;

/**
 * The sheet of one unplug drill as one HTML file that opens from disk and works offline. Any thread; the same
 * record gives the same page on every computer.
 */
public final class DrillPage {

    private DrillPage() {}

    /**
     * The page of a drill.
     *
     * @throws tracksoak.report.record.facts.RecordException if a figure in it is no number or out of bounds
     */
    public static String render(DrillRecord record) {
        List<Section> sections = new ArrayList<>();
        List<Block> first = List.of();
        if (record.state() == DrillRecord.State.COMPLETE) {
            first = DrillParts.survived(record);
            sections.add(DrillParts.tracks(record));
            sections.add(DrillParts.files(record));
        }
        sections.add(DrillParts.course(record));
        sections.add(DrillParts.driveAndSession(record));
        sections.add(DrillParts.cautions());
        return SheetFile.render(
                new SheetFile.About(SheetKind.DRILL, record.id(), record.tool(), RecordFormats.DRILL.write(record)),
                "Unplug drill: " + VerdictHead.drive(record.drive()).text(),
                new SheetFile.Content(head(record), List.of(), first, sections, null));
    }

    private static VerdictView head(DrillRecord record) {
        DrillFindings findings = record.findings();
        List<Shown> warnings = new ArrayList<>();
        if (record.method().ioMode() == IoMode.SIMULATED) {
            warnings.add(Shown.whole("This drive is simulated: the sheet says nothing about any real one."));
        }
        if (record.back() != null && record.back().readOnly()) {
            warnings.add(Shown.whole(
                    "The file system came back refusing writes: it may be damaged. Save what is on it, then have it checked"
                            + " or format it anew."));
        }
        return new VerdictView(
                "drill",
                "UNPLUG DRILL",
                Shown.whole(findings == null ? unfinished(record) : findings.sentence()),
                Shown.whole(
                        "This drill shows what one pull cost, at one moment. It judges no drive: another pull may cost"
                                + " more or less."),
                VerdictHead.drive(record.drive()),
                Facts.about("")
                        .row("Serial number", record.drive().serial())
                        .row("Session", record.session().title())
                        .row("Tracks", TrackGroup.words(record.session().groups()))
                        .row("Demand", Units.rate(record.session().bytesPerSecond()))
                        .row("File system", TradeName.orNull(record.drive().fileSystem()))
                        .row("Drill on", Times.minute(record.startedAt()))
                        .build()
                        .rows(),
                warnings,
                Shown.whole(
                        findings == null
                                ? "Read what is left on the drive with care, then do the drill again to its end."
                                : findings.advice()),
                List.of(),
                List.of());
    }

    private static String unfinished(DrillRecord record) {
        String why = record.stateReason().isEmpty() ? "" : ": " + record.stateReason();
        return switch (record.state()) {
            case RUNNING -> "The drill has not ended; nothing has been read yet.";
            case NOT_PULLED -> "Nobody pulled the drive" + why + ".";
            case FAILED -> "The drill could not be done" + why + ".";
            case NOT_BACK -> "The drive did not come back" + why + ".";
            case INTERRUPTED, COMPLETE -> "The drill was not finished" + why + ".";
        };
    }
}

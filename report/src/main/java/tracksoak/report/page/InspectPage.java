package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.SheetKind;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.ImpliedValue;
import tracksoak.report.record.facts.inspection.InspectedFile;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.InspectionRecord;
import tracksoak.report.record.facts.inspection.SignalFacts;
import tracksoak.report.record.facts.inspection.VolumeSeen;
import tracksoak.report.record.json.RecordFormats;

/**
 * The sheet of one inspection as one HTML file that opens from disk and asks nothing of any network. Any thread; the same
 * record gives the same page on every computer.
 */
public final class InspectPage {

    private static final int MOST_ROWS = 256;

    private InspectPage() {}

    /**
     * The page of an inspection.
     *
     * @throws tracksoak.report.record.facts.RecordException if a figure in it is no number or out of bounds
     */
    public static String render(InspectionRecord record) {
        List<Section> sections = new ArrayList<>();
        sections.add(tracks(record));
        sections.add(files(record));
        if (!record.session().isEmpty()) {
            sections.add(session(record));
        }
        sections.add(method());
        return SheetFile.render(
                new SheetFile.About(
                        SheetKind.INSPECTION, record.id(), record.tool(), RecordFormats.INSPECTION.write(record)),
                record.outcome().words() + ": recording "
                        + Shown.of(record.place()).text(),
                new SheetFile.Content(head(record), List.of(), findings(record), sections, null));
    }

    private static VerdictView head(InspectionRecord record) {
        VolumeSeen volume = record.volume();
        return new VerdictView(
                VerdictHead.state(record.outcome()),
                record.outcome().words(),
                Shown.whole(record.sentence()),
                Shown.whole(record.scope()),
                Shown.of("Recording " + record.place()),
                Facts.about("")
                        .row("Takes", Count.number(record.takes().size()))
                        .row("Tracks", Count.number(record.tracks()))
                        .row("Read", Units.bytes(record.bytesRead()))
                        .row("File system", volume == null ? null : TradeName.of(volume.fileSystem()))
                        .row("Inspected on", Times.minute(record.startedAt()))
                        .build()
                        .rows(),
                List.of(),
                Shown.whole(record.advice()),
                record.reasons().stream().map(Shown::whole).toList(),
                List.of());
    }

    private static List<Block> findings(InspectionRecord record) {
        List<Block> blocks = new ArrayList<>();
        if (record.findings().isEmpty()) {
            blocks.add(Prose.of("Nothing was found."));
        } else {
            blocks.add(new Grid(
                    "Everything that was found, what weighs most first",
                    List.of("What", "Weight", "Where", "At", "Length", "In words"),
                    record.findings().stream()
                            .limit(MOST_ROWS)
                            .map(finding -> row(finding, record.takes().size() > 1))
                            .toList(),
                    leftOut(record.findings().size() + record.moreFindings(), "finding")));
        }
        return blocks;
    }

    private static List<Shown> row(Finding finding, boolean ofTake) {
        Double at = finding.atS();
        Double samples = finding.samples();
        String where = String.join(", ", finding.tracks());
        return List.of(
                Shown.of(finding.kind().title()),
                Shown.of(
                        switch (finding.weight()) {
                            case FAULT -> "fault";
                            case LISTEN -> "have a listen";
                            case NOTE -> "worth knowing";
                        }),
                Shown.of(
                        ofTake && !finding.take().isEmpty() && !finding.take().equals(where)
                                ? finding.take() + ": " + where
                                : where),
                Shown.of(at == null ? "–" : Times.playing(at)),
                Shown.of(samples == null || samples == 0 ? "–" : Count.of(Math.round(samples), "sample")),
                Shown.whole(finding.sentence()));
    }

    private static Section tracks(InspectionRecord record) {
        List<Block> blocks = new ArrayList<>();
        int shown = 0;
        for (InspectedTake take : record.takes()) {
            if (shown >= MOST_ROWS) {
                break;
            }
            blocks.add(new Grid(
                    "Take " + Shown.of(take.name()).text() + ", " + Units.seconds(take.seconds()),
                    List.of("Track", "Format", "Length", "Samples", "Files", "Test signal"),
                    take.tracks().stream()
                            .limit(MOST_ROWS - shown)
                            .map(InspectPage::row)
                            .toList()));
            shown += take.tracks().size();
        }
        if (record.tracks() > MOST_ROWS) {
            blocks.add(Prose.of("The first " + MOST_ROWS + " tracks are shown; the record has all "
                    + Count.number(record.tracks()) + "."));
        }
        if (blocks.isEmpty()) {
            blocks.add(Prose.of("No file could be looked into."));
        }
        return new Section(
                "tracks",
                "Takes and tracks",
                Count.of(record.takes().size(), "take") + ", each track by its files and its test signal",
                Count.of(record.tracks(), "track"),
                blocks);
    }

    private static List<Shown> row(InspectedTrack track) {
        SignalFacts signal = track.signal();
        return Grid.row(
                track.name(),
                String.format(
                        Locale.ROOT,
                        "%s kHz, %d-bit%s%s",
                        Quantity.plain(track.sampleRateHz() / 1000.0),
                        8 * track.bytesPerSample(),
                        track.isFloat() ? " float" : "",
                        track.sharesFiles() > 1 ? ", interleaved" : ""),
                Times.playing(track.seconds()),
                Count.number(track.samples()),
                Count.number(track.splits()),
                signal == null ? track.silent() ? "none; silent" : "none" : words(signal));
    }

    private static String words(SignalFacts signal) {
        return (signal.breaks() == 0 ? "whole" : Count.of(signal.breaks(), "break")) + ", "
                + Times.playing(signal.fromS()) + " to " + Times.playing(signal.untilS())
                + (signal.exact()
                        ? ", to the sample"
                        : String.format(
                                Locale.ROOT, ", to the millisecond; clocks differ by %.0f ppm", signal.clockPpm()));
    }

    private static Section files(InspectionRecord record) {
        List<InspectedFile> all =
                record.takes().stream().flatMap(take -> take.files().stream()).toList();
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Grid(
                "Every file: what it is, and whether its header fits it",
                List.of("File", "Kind", "Size", "Samples of each track", "Header", "Time reference"),
                all.stream().limit(MOST_ROWS).map(InspectPage::row).toList(),
                leftOut(all.size(), "file")));
        VolumeSeen volume = record.volume();
        if (volume != null) {
            blocks.add(Facts.about("The file system, by its own tables")
                    .row("File system", TradeName.of(volume.fileSystem()))
                    .row("Cluster", Units.bytes(volume.clusterBytes()))
                    .row(
                            "Unmounted cleanly",
                            volume.inUse() ? "unknown, as it was mounted" : volume.dirty() ? "no" : "yes")
                    .row("Failures of the drive noted", volume.mediaFailure() ? "yes" : "no")
                    .build());
        }
        if (record.otherFiles() > 0) {
            blocks.add(Prose.of(Count.of(record.otherFiles(), "other file") + " beside them were not looked into."));
        }
        return new Section("files", "Files", "Every header beside its file", Count.of(all.size(), "file"), blocks);
    }

    private static List<Shown> row(InspectedFile file) {
        Long reference = file.timeReference();
        return Grid.row(
                file.path(),
                file.container(),
                Units.bytes(file.bytes()),
                Count.number(file.samples()),
                switch (file.header()) {
                    case DONE -> "fits";
                    case NEVER -> "never finished";
                    case CUT -> "tells more than there is";
                    case BEHIND -> "tells less than there is";
                },
                reference == null ? "none" : Count.number(reference));
    }

    private static Section session(InspectionRecord record) {
        return new Section(
                "session",
                "The session it implies",
                List.of(
                        Prose.of("What the recording shows of the recorder, and what stays a guess."),
                        new Grid(
                                "Session, value by value",
                                List.of("Value", "Is", "Known", "From"),
                                record.session().stream().map(InspectPage::row).toList())));
    }

    private static List<Shown> row(ImpliedValue value) {
        return Grid.row(value.key(), value.value(), value.told() ? "shown" : "a guess", value.evidence());
    }

    private static Section method() {
        return new Section(
                "method",
                "How it was looked at",
                "What was held against what, and what weighs how much",
                "",
                List.of(Bullets.of(List.of(
                        "Every header was held against its file, every file against those beside it, every sample was read."
                                + " Nothing was written.",
                        "A fault means FAIL. Where music can do the same, nobody is blamed: have a listen.",
                        "A track that carries the test signal is compared with it sample by sample; after a cable or a"
                                + " converter it is followed to the millisecond."))));
    }

    private static String leftOut(long all, String noun) {
        return all > MOST_ROWS
                ? "The first " + MOST_ROWS + " of " + Count.of(all, noun) + " are shown; the record has more."
                : "";
    }
}

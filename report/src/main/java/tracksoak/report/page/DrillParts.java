package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.view.Bars;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillPull;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillReturn;
import tracksoak.report.record.facts.drill.DrillStop;
import tracksoak.report.record.facts.drill.DrillTrack;

/** The sections of a drill's sheet. */
final class DrillParts {

    private static final int MOST_ROWS = 256;

    private DrillParts() {}

    /** What survived, tracks that fared alike in one row. */
    static List<Block> survived(DrillRecord record) {
        DrillFindings findings = Objects.requireNonNull(record.findings());
        double mostMs =
                record.tracks().stream().mapToDouble(DrillTrack::keptMs).max().orElse(0);
        return List.of(
                Prose.of(
                        findings.worstBrokenMs() > 0
                                ? "Even flushed audio was lost: " + Units.ms(findings.worstBrokenMs())
                                        + " on the worst track."
                                : findings.worstLostMs() > 0
                                        ? "All that was flushed survived. What came after the last flush did not: "
                                                + Units.ms(findings.worstLostMs()) + " on the worst track."
                                        : "All audio recorded before the pull can be read."),
                new Bars(
                        "Audio that can still be read, of what was recorded before the pull",
                        "Track",
                        "Lost by the pull",
                        alike(record.tracks()).stream()
                                .limit(MOST_ROWS)
                                .map(tracks -> bar(tracks))
                                .toList(),
                        "Recorded before the pull",
                        Units.ms(mostMs)));
    }

    private static Bars.Bar bar(List<DrillTrack> alike) {
        DrillTrack first = alike.get(0);
        return new Bars.Bar(names(alike), Units.ms(first.lostMs()), percent(first));
    }

    private static int percent(DrillTrack track) {
        return (int) Math.floor(track.keptMs() <= 0 ? 0 : 100 * track.readableMs() / track.keptMs());
    }

    /** Neighbours that lost the same, as it is shown. */
    private static List<List<DrillTrack>> alike(List<DrillTrack> tracks) {
        List<List<DrillTrack>> groups = new ArrayList<>();
        for (DrillTrack track : tracks) {
            List<DrillTrack> last = groups.isEmpty() ? List.of() : groups.get(groups.size() - 1);
            if (!last.isEmpty()
                    && Units.ms(last.get(0).lostMs()).equals(Units.ms(track.lostMs()))
                    && percent(last.get(0)) == percent(track)) {
                last.add(track);
            } else {
                groups.add(new ArrayList<>(List.of(track)));
            }
        }
        return groups;
    }

    private static String names(List<DrillTrack> alike) {
        DrillTrack last = alike.get(alike.size() - 1);
        int from = alike.get(0).firstTrack();
        int to = last.firstTrack() + last.tracks() - 1;
        return from == to ? "Track " + from : "Tracks " + from + "–" + to;
    }

    static Section tracks(DrillRecord record) {
        DrillFindings findings = Objects.requireNonNull(record.findings());
        List<DrillTrack> shown = record.tracks().stream().limit(MOST_ROWS).toList();
        List<Block> blocks = new ArrayList<>();
        blocks.add(Prose.of("Up to " + Units.ms(findings.worstSinceFlushMs())
                + " of a track had been recorded since the last flush when the drive was pulled."));
        blocks.add(new Grid(
                "What became of each track",
                List.of(
                        "Track",
                        "Came in",
                        "Lost before the pull",
                        "Written",
                        "Flushed",
                        "Can be read",
                        "Lost by the pull",
                        "Good, but after a gap"),
                shown.stream().map(DrillParts::row).toList(),
                leftOut(record.tracks().size(), "track")));
        return new Section(
                "tracks",
                "What survived, track by track",
                "From the recorder to the drive, and what the pull cost",
                Units.ms(findings.worstLostMs()) + " lost",
                blocks);
    }

    private static List<Shown> row(DrillTrack track) {
        Long later = track.laterBytes();
        return Grid.row(
                name(track),
                ms(track, track.producedBytes()),
                ms(track, track.droppedBytes()),
                ms(track, track.writtenBytes()),
                ms(track, track.flushedBytes()),
                Units.ms(track.readableMs()),
                Units.ms(track.lostMs()),
                ms(track, later == null ? 0 : later));
    }

    private static String ms(DrillTrack track, long bytes) {
        return Units.ms(bytes * 1e3 / track.bytesPerSecond());
    }

    private static String name(DrillTrack track) {
        return names(List.of(track));
    }

    static Section files(DrillRecord record) {
        DrillFindings findings = Objects.requireNonNull(record.findings());
        List<Block> blocks = new ArrayList<>();
        blocks.add(Facts.about("Files of the take that was cut off")
                .row("Open as they are", Count.number(findings.filesOpen()))
                .row(
                        "Must be repaired first: the header does not tell the length",
                        Count.number(findings.filesRepair()))
                .row("Hold no audio", Count.number(findings.filesEmpty()))
                .row("Name is gone", Count.number(findings.filesGone()))
                .build());
        DrillStop stop = Objects.requireNonNull(record.stopFirst());
        blocks.add(Facts.about("The take that was stopped first")
                .row("Length", Units.seconds(stop.seconds()))
                .row("From stop to safe to unplug", Units.ms(stop.closeMs()))
                .row("Audio lost on its worst track", Units.ms(findings.stoppedLostMs()))
                .row("Files that do not open as they are", Count.number(findings.stoppedFilesBad()))
                .row("Stopping first would have saved, on the worst track", Units.ms(findings.savedMs()))
                .build());
        blocks.add(new Grid(
                "Every file: what the file system and the header say, and what can be read",
                List.of("File", "Take", "Written", "Size now", "Header tells", "Can be read", "So it"),
                record.files().stream().limit(MOST_ROWS).map(DrillParts::row).toList(),
                leftOut(record.files().size(), "file")));
        return new Section(
                "files",
                "What a recorder finds",
                Count.of(findings.filesRepair(), "file needs repair", "files need repair"),
                Count.of(findings.filesOpen(), "file opens", "files open"),
                blocks);
    }

    private static List<Shown> row(DrillFile file) {
        Long size = file.sizeBytes();
        Long header = file.headerBytes();
        return Grid.row(
                file.name(),
                file.stoppedFirst() ? "stopped first" : "cut off",
                Units.bytes(file.wroteBytes()),
                size == null ? "gone" : Units.bytes(size),
                header == null ? "nothing" : Units.bytes(header),
                Units.bytes(file.readableBytes()),
                switch (file.use()) {
                    case OPENS -> "opens";
                    case REPAIR -> "must be repaired";
                    case EMPTY -> "holds nothing";
                    case GONE -> "is gone";
                });
    }

    static Section course(DrillRecord record) {
        List<Block> blocks = new ArrayList<>();
        DrillPull pull = record.pull();
        if (pull == null) {
            blocks.add(Prose.of("The drive was not pulled."));
        } else {
            blocks.add(Facts.about("The pull")
                    .row("Into the take", Units.seconds(pull.atS()))
                    .row("Last call that came back before it", Units.seconds(pull.lastDoneS()))
                    .row(
                            "Flush interval",
                            pull.flushS() == 0 ? "no flush before the end" : Units.seconds(pull.flushS()))
                    .row("What the system said", pull.fault().message())
                    .build());
        }
        DrillReturn back = record.back();
        if (back == null) {
            blocks.add(Prose.of("The drive has not come back, so nothing was read."));
        } else {
            blocks.add(Facts.about("The return")
                    .row("Back after", Units.seconds(back.waitedS()))
                    .row("Device", back.node())
                    .row("Mounted at", back.mount())
                    .row("The file system takes writes", back.readOnly() ? "no" : "yes")
                    .row("The drill's own mark in its folder", back.marker() ? "survived" : "is lost")
                    .row(
                            "Bytes came from",
                            switch (back.origin()) {
                                case DEVICE -> "the drive, by its own counters";
                                case HOST_MEMORY -> "in part the computer's memory: what it shows proves little";
                                case UNKNOWN ->
                                    "the drive, as its file system was mounted anew; it has no counters to prove it";
                            })
                    .build());
        }
        return new Section("course", "How it went", "The pull and the return", "", blocks);
    }

    static Section driveAndSession(DrillRecord record) {
        return new Section(
                "drive",
                "Drive and session",
                VerdictHead.drive(record.drive()).text(),
                Units.rate(record.session().bytesPerSecond()),
                List.of(
                        Facts.about("Drive")
                                .row("Drive", VerdictHead.drive(record.drive()).full())
                                .row(
                                        "File system",
                                        TradeName.orNull(record.drive().fileSystem()))
                                .row("Device before the pull", record.drive().node())
                                .row("Folder", record.drive().folder())
                                .build(),
                        Facts.about("Session")
                                .row("Session", record.session().title())
                                .row("Tracks", TrackGroup.words(record.session().groups()))
                                .row("Demand", Units.rate(record.session().bytesPerSecond()))
                                .row("Chunk", Units.bytes(record.method().chunkBytes()))
                                .build()));
    }

    static Section cautions() {
        return new Section(
                "cautions",
                "Cautions",
                "What to do with this drive before it records a show",
                "",
                List.of(Bullets.of(List.of(
                        "A drive that was pulled may be damaged in its file system: have it checked or format it anew before"
                                + " it records a show.",
                        "Never do this with a drive that holds the only copy of anything.",
                        "The test files are full-scale noise: never play them.",
                        "A file that must be repaired is not lost, but repairing takes time and a tool that knows the"
                                + " format."))));
    }

    private static String leftOut(int all, String noun) {
        return all > MOST_ROWS
                ? "The first " + MOST_ROWS + " of " + Count.of(all, noun) + "; the record lists all."
                : "";
    }
}

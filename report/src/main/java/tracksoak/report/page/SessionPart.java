package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.verdict.OddsWords;

/** The session the run was made for: its demand, the recorder it assumes, the margins it asks. */
final class SessionPart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        Session session = record.session();
        List<Block> blocks = new ArrayList<>();
        if (!session.about().isBlank()) {
            blocks.add(Prose.of(session.about()));
        }
        blocks.add(demand(session));
        blocks.add(recorder(session));
        blocks.add(margins(session.margins()));
        return new Section(
                "session",
                "Session and its demand",
                TrackGroup.words(session.groups()) + ", " + Units.seconds(session.lengthS()),
                Units.rate(Demand.of(session).bytesPerSecond()),
                blocks);
    }

    private static Facts demand(Session session) {
        Demand demand = Demand.of(session);
        long perSecond = demand.bytesPerSecond();
        long perTrack = session.bytesPerSecond() / Math.max(1, session.tracks());
        return Facts.about("Demand")
                .row("Session", session.name())
                .row("Title", session.title())
                .row("Kind", kind(session))
                .row("Tracks", TrackGroup.words(session.groups()))
                .rowIf(!session.mix().isEmpty(), "Mix written meanwhile", TrackGroup.words(session.mix()))
                .row("Length", Units.seconds(session.lengthS()))
                .row("In all", Units.rate(perSecond) + ", " + Units.bytes(perSecond * 60) + " per minute")
                .rowIf(
                        !session.mix().isEmpty(),
                        "Of these",
                        Units.rate(demand.readBytesPerSecond()) + " read, " + Units.rate(demand.writtenBytesPerSecond())
                                + " written")
                .row("Per track", Units.rate(perTrack) + ", " + Units.bytes(perTrack * 60) + " per minute")
                .row("For its whole length", Units.bytes(perSecond * session.lengthS()))
                .build();
    }

    private static Facts recorder(Session session) {
        return Facts.about("Recorder")
                .row(
                        "Files",
                        session.layout() == FileLayout.INTERLEAVED ? "one file for all tracks" : "one file per track")
                .row(
                        "Chunk",
                        Units.bytes(session.chunkBytes()) + " per "
                                + (session.layout() == FileLayout.INTERLEAVED ? "file" : "track"))
                .row(
                        "Chunks fall due",
                        session.arrival() == Arrival.BURST ? "all at once, the hard case" : "spread evenly")
                .row("Writes in flight", Count.number(session.writers()))
                .row("Flush", session.flushS() > 0 ? "every " + Units.seconds(session.flushS()) : "only at the end")
                .row("Buffer", RecorderBuffer.words(session))
                .row("Largest file", Units.bytes(session.fileLimitBytes()))
                .row("File systems it takes", TradeName.all(session.fileSystems(), ", "))
                .row("A stall is longer than", Units.ms(session.stallLimitMs()))
                .row("Accepted risk", OddsWords.chance(session.risk()) + " shows may lose audio")
                .row("A PASS counts in the roster for", session.validDays() + " days")
                .build();
    }

    private static Facts margins(Margins margins) {
        return Facts.about("Margins asked")
                .row("Buffer", Units.factor(margins.buffer()))
                .row("Rate", Units.factor(margins.rate()))
                .row("Port", Units.factor(margins.port()))
                .row("Playback", Units.factor(margins.playback()))
                .row("Longest stall", Units.ms(margins.longestStallMs()))
                .row("Close", Units.ms(margins.closeMs()))
                .build();
    }

    private static String kind(Session session) {
        return switch (session.kind()) {
            case RECORDING -> "recording: every track is written as it is played";
            case PLAYBACK -> "playback: every track is read back at once";
            case MIXDOWN -> "mixdown: every track is read while the mix is written";
            case ARCHIVE -> "archive: a finished show is copied at full speed, then verified";
        };
    }
}

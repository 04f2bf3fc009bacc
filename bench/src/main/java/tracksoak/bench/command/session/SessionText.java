package tracksoak.bench.command.session;

import java.io.PrintWriter;
import tracksoak.bench.command.console.Fields;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.FileSystemShape;
import tracksoak.profiles.GroupDemand;
import tracksoak.profiles.Margins;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.SessionRoom;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.verdict.OddsWords;

/** A session and its demand in words. */
public final class SessionText {

    private SessionText() {}

    /** The session and what it asks of a drive. */
    static void print(Session session, String origin, PrintWriter out) {
        out.println(Inert.whole(session.name() + ": " + session.title()));
        if (!session.about().isEmpty()) {
            out.println(Inert.whole(session.about()));
        }
        out.println();
        out.println("Session");
        Fields fields = new Fields(out)
                .add("from", origin)
                .add("kind", KebabCase.of(session.kind()))
                .add(
                        session.kind() == SessionKind.RECORDING ? "tracks" : "tracks read",
                        TrackGroup.words(session.groups()));
        if (!session.mix().isEmpty()) {
            fields.add("mix written", TrackGroup.words(session.mix()));
        }
        fields.add("length", Units.seconds((double) session.lengthS()))
                .add("layout", layout(session))
                .add("chunk", chunk(session))
                .add("writes", Count.inDigits(session.writers(), "write") + " in flight at once")
                .add("flush", session.flushS() == 0 ? "only at the end" : "every " + Units.seconds(session.flushS()))
                .add("buffer", RecorderBuffer.words(session))
                .add("file limit", Units.bytes(session.fileLimitBytes()))
                .add("file systems", TradeName.all(session.fileSystems(), ", "))
                .add("stall", "no chunk done for more than " + Units.ms((double) session.stallLimitMs()))
                .add("risk", OddsWords.chance(session.risk()) + " shows may lose audio")
                .add("trusted", "for " + Count.inDigits(session.validDays(), "day") + " after a PASS, in the roster");
        asks(session.margins(), fields, session.kind());
    }

    private static String layout(Session session) {
        return switch (session.layout()) {
            case FILE_PER_TRACK -> "one file per track";
            case INTERLEAVED -> "all tracks in one file, frame by frame";
        };
    }

    private static String chunk(Session session) {
        return Units.bytes(session.chunkBytes())
                + (session.layout() == FileLayout.INTERLEAVED ? " of the file" : " per track")
                + (session.arrival() == Arrival.BURST ? ", all at once" : ", one after another");
    }

    private static void asks(Margins margins, Fields fields, SessionKind kind) {
        fields.add(
                        "margins",
                        "buffer margin " + Units.factor(margins.buffer()) + ", rate margin "
                                + Units.factor(margins.rate()) + ", port margin " + Units.factor(margins.port())
                                + (kind == SessionKind.RECORDING
                                        ? ""
                                        : ", playback margin " + Units.factor(margins.playback())))
                .add(
                        "",
                        "longest stall " + Units.ms((double) margins.longestStallMs()) + ", close within "
                                + Units.ms((double) margins.closeMs()));
    }

    /** What the session needs, in all and per track. */
    static void printDemand(Demand demand, PrintWriter out) {
        out.println();
        out.println("Demand");
        Fields fields = new Fields(out)
                .add(
                        "in all",
                        Units.rate((double) demand.bytesPerSecond()) + ", " + Units.bytes(demand.bytesPerMinute())
                                + " per minute, " + Units.bytes(demand.bytesPerHour()) + " per hour");
        if (demand.readBytesPerSecond() > 0) {
            fields.add(
                    "",
                    Units.rate((double) demand.writtenBytesPerSecond()) + " of it written, "
                            + Units.rate((double) demand.readBytesPerSecond()) + " read");
        }
        for (GroupDemand group : demand.groups()) {
            fields.add(
                    group.mix() ? "per mix track" : "per track",
                    Units.rate((double) group.bytesPerSecondPerTrack()) + ", "
                            + Units.bytes(group.bytesPerMinutePerTrack()) + " per minute");
        }
        fields.add(
                "whole length",
                Units.bytes(demand.dataBytes()) + " of samples, " + Count.inDigits(demand.openFiles(), "file")
                        + " open at once");
    }

    /** Room on a file system, and for how long a given free space lasts where it is given. */
    static void printRoom(Demand demand, FileSystemShape shape, long freeBytes, PrintWriter out) {
        SessionRoom room = demand.roomOn(shape);
        Fields fields = new Fields(out);
        fields.add(
                "room",
                Units.bytes(room.totalBytes()) + " in " + Count.inDigits(room.files(), "file") + " on "
                        + TradeName.of(shape.type()) + " with clusters of " + Units.bytes(shape.clusterBytes())
                        + (room.exact() ? "" : " (the folder's own room is estimated)"));
        if (!room.fitsOneFolder()) {
            fields.add("", "one folder there cannot list so many files");
        }
        if (freeBytes > 0) {
            fields.add(
                    "free space",
                    Units.bytes(freeBytes) + " lasts for "
                            + Units.seconds((double) demand.secondsUntilFull(freeBytes, shape)));
        }
    }
}

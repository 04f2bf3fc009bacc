package tracksoak.report.verdict;

import java.util.Objects;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileSystemShape;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionRoom;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.DriveFacts;

/** The whole session must fit on the drive, split files, cluster rounding and folder included. */
public final class Room implements Rule {

    Room() {}

    /** Whether a session fits a drive as free as it is, as far as that is known. */
    public static boolean fits(Session session, DriveFacts drive) {
        SessionRoom room = Demand.of(session).roomOn(shape(drive));
        Long free = drive.freeBytes();
        return room.fitsOneFolder() && (free == null || room.totalBytes() <= free);
    }

    @Override
    public Finding judge(Evidence e) {
        SessionRoom room = e.demand.roomOn(shape(e.run.drive()));
        double need = room.totalBytes() / 1e9;
        Draft draft = new Draft(CriterionId.ROOM, Units.bytes(room.totalBytes()) + " free", need, "GB");
        Long free = e.run.drive().freeBytes();
        if (free == null) {
            return draft.openForGood("The free room could not be told: check by hand that "
                    + Units.bytes(room.totalBytes()) + " are free.");
        }
        draft.measured(Units.bytes(free) + " free", free / 1e9).margin(free / (double) room.totalBytes());
        String length = Units.seconds((double) e.session.lengthS());
        if (!room.fitsOneFolder()) {
            return draft.missed("A folder on " + room.shape().type() + " cannot hold the " + room.files()
                    + " files of this session.");
        }
        return fits(e.session, e.run.drive())
                ? draft.met("All " + length + " of this session fit.")
                : draft.missed(
                        length + " of this session need " + Units.bytes(room.totalBytes()) + ", but only "
                                + Units.bytes(
                                        tooSmall(e, room)
                                                ? Objects.requireNonNull(
                                                        e.run.drive().fileSystemBytes())
                                                : free)
                                + (tooSmall(e, room)
                                        ? " fit on this drive even when it is empty: take a larger one."
                                        : " were free before the run. Copy what must be kept elsewhere, then clear the drive."));
    }

    private static boolean tooSmall(Evidence e, SessionRoom room) {
        Long whole = e.run.drive().fileSystemBytes();
        return whole != null && whole > 0 && whole < room.totalBytes();
    }

    private static FileSystemShape shape(DriveFacts drive) {
        String type = drive.fileSystem() == null ? "unknown" : drive.fileSystem();
        Long cluster = drive.clusterBytes();
        if (cluster != null && Long.bitCount(cluster) == 1 && cluster >= 512 && cluster <= 32 << 20) {
            return FileSystemShape.of(type, cluster);
        }
        return FileSystemShape.usual(type, drive.fileSystemBytes() == null ? 0 : drive.fileSystemBytes());
    }
}

package tracksoak.report.verdict;

import java.util.Objects;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileSystemShape;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionRoom;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.DriveFacts;

/** The whole session must fit on the drive, split files, cluster rounding and folder included. */
public final class FreeRoom implements Rule {

    FreeRoom() {}

    /**
     * Whether a session fits a drive as free as it is, as far as that is known.
     *
     * @param keptBytes room that is to stay free beside it, in bytes
     */
    public static boolean fits(Session session, DriveFacts drive, long keptBytes) {
        SessionRoom room = Demand.of(session).roomOn(shape(drive));
        Long free = drive.freeBytes();
        return room.fitsOneFolder() && (free == null || room.totalBytes() <= free - keptBytes);
    }

    /** Whether it would fit with nothing else on the drive, as far as that is known. */
    public static boolean fitsEmpty(Session session, DriveFacts drive) {
        Long whole = drive.fileSystemBytes();
        return whole == null
                || whole <= 0
                || Demand.of(session).roomOn(shape(drive)).totalBytes() <= whole;
    }

    @Override
    public Finding judge(JudgedRun run) {
        SessionRoom room = run.demand.roomOn(shape(run.record.drive()));
        double need = room.totalBytes() / 1e9;
        FindingDraft draft = new FindingDraft(CriterionId.ROOM, Units.bytes(room.totalBytes()) + " free", need, "GB");
        Long free = run.record.drive().freeBytes();
        if (free == null) {
            return draft.openForGood("The free room could not be told: check by hand that "
                    + Units.bytes(room.totalBytes()) + " are free.");
        }
        Long reserve = run.record.plan().reserveBytes();
        long kept = reserve == null ? 0 : reserve;
        long beside = Math.max(0, free - kept);
        draft.measured(Units.bytes(beside) + " free" + (kept > 0 ? " beside the reserve" : ""), beside / 1e9)
                .margin(beside / (double) room.totalBytes());
        String length = Units.seconds(run.session.lengthS());
        boolean fitsEmpty = fitsEmpty(run.session, run.record.drive());
        if (!room.fitsOneFolder()) {
            return draft.missed("A folder on " + TradeName.of(room.shape().type()) + " cannot hold the " + room.files()
                    + " files of this session.");
        }
        return fits(run.session, run.record.drive(), kept)
                ? draft.met("All " + length + " of this session fit.")
                : draft.missed(length + " of this session need " + Units.bytes(room.totalBytes()) + ", but only "
                        + Units.bytes(
                                fitsEmpty
                                        ? free
                                        : Objects.requireNonNull(
                                                run.record.drive().fileSystemBytes()))
                        + (fitsEmpty
                                ? " were free before the run"
                                        + (kept > 0 ? ", of which " + Units.bytes(kept) + " stay in reserve" : "")
                                        + ". Copy what must be kept elsewhere, then clear the drive."
                                : " fit on this drive even when it is empty: take a larger one."));
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

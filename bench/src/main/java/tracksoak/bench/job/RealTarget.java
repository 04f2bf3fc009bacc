package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.folder.RunLock;
import tracksoak.bench.drive.folder.Workspace;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.RunRecord;

/** A new folder on a drive of this computer, with the drive locked against other runs. */
public final class RealTarget implements OpenTarget {

    private final RunLock lock;
    private final Workspace workspace;
    private final RealDrive drive;
    private final DriveFacts facts;
    private final Rooms rooms;
    private final JobListener listener;

    private RealTarget(
            RunLock lock, Workspace workspace, RealDrive drive, DriveFacts facts, Rooms rooms, JobListener listener) {
        this.lock = lock;
        this.workspace = workspace;
        this.drive = drive;
        this.facts = facts;
        this.listener = listener;
        this.rooms = rooms;
    }

    /**
     * Locks the drive and makes the run's folder in {@code parent}.
     *
     * @param record where the run's record will lie on this computer
     */
    public static RealTarget open(
            FoundDrive found, Path parent, String runId, Path record, Rooms rooms, JobListener listener) {
        try {
            RunLock lock = RunLock.take(rooms.stateFolder(), found.lockKey(), runId);
            try {
                return open(lock, found, parent, runId, record, rooms, listener);
            } catch (IOException | RuntimeException refused) {
                lock.close();
                throw refused;
            }
        } catch (IOException refused) {
            throw Problem.cannot(
                    "no run can be made in " + Inert.quoted(parent) + " (" + Problem.reason(refused) + ")",
                    "see that the drive is plugged in, has room (for more files and folders, too) and takes writes, and that no "
                            + "other run is on it");
        }
    }

    private static RealTarget open(
            RunLock lock, FoundDrive found, Path parent, String runId, Path record, Rooms rooms, JobListener listener)
            throws IOException {
        String now = Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis()).toString();
        Workspace workspace = Workspace.create(parent.toRealPath(), runId, now, record);
        try {
            RealDrive drive = RealDrive.open(workspace.folder());
            return new RealTarget(lock, workspace, drive, found.in(workspace.folder()), rooms, listener);
        } catch (IOException | RuntimeException refused) {
            workspace.remove();
            throw refused;
        }
    }

    @Override
    public RealDrive drive() {
        return drive;
    }

    @Override
    public DriveFacts facts() {
        return facts;
    }

    @Override
    public NanoClock clock() {
        return SystemClocks.NANO;
    }

    @Override
    public EpochClock epoch() {
        return SystemClocks.EPOCH;
    }

    @Override
    public Waiter waiter() {
        return SystemClocks.PARK;
    }

    @Override
    public boolean virtual() {
        return false;
    }

    /** The run's folder. */
    Workspace workspace() {
        return workspace;
    }

    @Override
    public void leave(Order order, RunRecord record, List<WrittenFile> written) {
        new Keepsakes(rooms, listener).leave(order, record, written, workspace.folder());
    }

    /** The order with what earlier runs left here to be read first. */
    Order reading(Order order, Path parent) {
        return order.with(order.extras()
                .reading(new Keepsakes(rooms, listener)
                        .in(parent, drive, facts, order.extras().tag())));
    }

    @Override
    public Fault.@Nullable Kind clean() {
        return clean(workspace, drive);
    }

    /** Takes away what the run wrote, from where its folder is now, on the drive as it is reached there. */
    Fault.@Nullable Kind clean(Workspace now, Drive there) {
        try {
            drive.close();
            now.remove();
            return null;
        } catch (IOException refused) {
            Fault.Kind kind = fault(there.presence(), refused);
            if (kind == Fault.Kind.GONE) {
                listener.trouble(
                        Problem.cannot(
                                "the drive is gone, with what the run wrote still on it",
                                "once it is back: " + Suitability.MEND
                                        + ", for it was pulled while it was written; then tracksoak clear PATH --yes, if it was not formatted"));
                return kind;
            }
            if (kind == Fault.Kind.READ_ONLY) {
                listener.trouble(Problem.cannot(
                        "the drive is read-only now, so what the run wrote is still in "
                                + Inert.quoted(now.folder().toString()),
                        "move its lock switch, or mount it for writing; if it became so by itself, " + Suitability.MEND
                                + "; then tracksoak clear PATH --yes, if it was not formatted"));
                return kind;
            }
            listener.trouble(Problem.cannot(
                    "what the run wrote could not be deleted (" + Problem.reason(refused) + "); it may still be in "
                            + Inert.quoted(now.folder().toString()),
                    "once the drive works again: tracksoak clear PATH --yes, or delete that folder by hand"));
            return kind;
        } finally {
            unlock();
        }
    }

    /** What of the drive kept its files from being deleted; null where somebody else did. */
    static Fault.@Nullable Kind fault(Drive.Presence presence, IOException refused) {
        return switch (presence) {
            case GONE -> Fault.Kind.GONE;
            case READ_ONLY -> Fault.Kind.READ_ONLY;
            case PRESENT, UNKNOWN -> {
                boolean others = refused instanceof LeftOver.NotOursException
                        || refused instanceof AccessDeniedException
                        || refused instanceof NoSuchFileException
                        || refused instanceof DirectoryNotEmptyException;
                yield others
                        ? null
                        : refused instanceof TimedCall.TookTooLongException ? Fault.Kind.HUNG : Fault.Kind.IO_ERROR;
            }
        };
    }

    /** Lets other runs on the drive. */
    void unlock() {
        try {
            lock.close();
        } catch (IOException refused) {
            listener.trouble(Problem.cannot(
                    "the lock of the drive could not be given back (" + Problem.reason(refused)
                            + "); it goes when this process ends",
                    ""));
        }
    }

    @Override
    public String leftIn() {
        return workspace.folder().toString();
    }
}

package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.folder.RunLock;
import tracksoak.bench.drive.folder.Workspace;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;

/** A new folder on a drive of this computer, with the drive locked against other runs. */
public final class RealTarget implements Target {

    private final RunLock lock;
    private final Workspace workspace;
    private final RealDrive drive;
    private final DriveFacts facts;
    private final Console console;

    private RealTarget(RunLock lock, Workspace workspace, RealDrive drive, DriveFacts facts, Console console) {
        this.lock = lock;
        this.workspace = workspace;
        this.drive = drive;
        this.facts = facts;
        this.console = console;
    }

    /**
     * Locks the drive and makes the run's folder in {@code parent}.
     *
     * @param record where the run's record will lie on this computer
     * @param state folder of this computer for locks
     */
    public static RealTarget open(
            FoundDrive found, Path parent, String runId, Path record, Path state, Console console) {
        try {
            RunLock lock = RunLock.take(state, found.lockKey(), runId);
            try {
                return open(lock, found, parent, runId, record, console);
            } catch (IOException | RuntimeException refused) {
                lock.close();
                throw refused;
            }
        } catch (IOException refused) {
            throw Problem.cannot(
                    "no run can be made in " + Inert.quoted(parent) + " (" + RunFiles.reason(refused) + ")",
                    "see that the drive is plugged in, has room and takes writes, and that no other run is on it");
        }
    }

    private static RealTarget open(
            RunLock lock, FoundDrive found, Path parent, String runId, Path record, Console console)
            throws IOException {
        String now = Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis()).toString();
        Workspace workspace = Workspace.create(parent.toRealPath(), runId, now, record);
        try {
            RealDrive drive = RealDrive.open(workspace.folder());
            return new RealTarget(lock, workspace, drive, found.in(workspace.folder()), console);
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
    public void leave(Order order, RunRecord record, List<WrittenFile> written, Console to, Rooms rooms) {
        if (order.extras().keepsakeBytes() > 0) {
            new Keepsakes(to, rooms).leave(order, record, written, workspace.folder());
        }
    }

    /** The order with what earlier runs left here to be read first. */
    public Order reading(Order order, Path parent, Rooms rooms) {
        return order.with(order.extras()
                .reading(new Keepsakes(console, rooms)
                        .in(parent, drive, facts, order.extras().tag())));
    }

    @Override
    public void clean() {
        clean(workspace);
    }

    /** Takes away what the run wrote, from where its folder is now. */
    void clean(Workspace now) {
        try {
            drive.close();
            now.remove();
        } catch (IOException refused) {
            console.complain(
                    "what the run wrote could not be deleted (" + RunFiles.reason(refused) + "); it may still be in "
                            + Inert.quoted(now.folder().toString()),
                    "once the drive works again: tracksoak clear PATH --yes, or delete that folder by hand");
        } finally {
            unlock();
        }
    }

    /** Lets other runs on the drive. */
    void unlock() {
        try {
            lock.close();
        } catch (IOException refused) {
            console.say("the lock of the drive could not be given back (" + RunFiles.reason(refused)
                    + "); it goes when this process ends");
        }
    }

    @Override
    public String leftIn() {
        return workspace.folder().toString();
    }
}

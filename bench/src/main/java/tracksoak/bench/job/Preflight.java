package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.drive.find.Suitability.SystemDrive;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.folder.Workspace;
import tracksoak.bench.drive.io.FilesLeft;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.verdict.FreeRoom;

/** What is looked at before a single byte is written: whether a run may be made here at all. */
public final class Preflight {

    /** The run's folder, its mark, the probes and a trial. */
    private static final int OWN_FILES = 4;

    private final Rooms rooms;
    private final JobListener listener;

    public Preflight(Rooms rooms, JobListener listener) {
        this.rooms = rooms;
        this.listener = listener;
    }

    /**
     * The drive at {@code path}, if the run may be made there and its record be kept in {@code files}; warnings are
     * shown, and what earlier runs left there.
     */
    FoundDrive pass(Path path, Order order, boolean allowSystem, RunFolder files) {
        return pass(path, order, asked(allowSystem), files);
    }

    FoundDrive pass(Path path, Order order, SystemDrive system, RunFolder files) {
        FoundDrive found = drive(path, order, system);
        keepApart(found, files);
        tellLeftOvers(path);
        return found;
    }

    /** Says beforehand what no run can put right: that is no surprise to keep for its end. */
    void tellWhereItDoesNotFit(FoundDrive found, Order order) {
        Long free = found.facts().freeBytes();
        if (free != null && !FreeRoom.fits(order.session(), found.facts(), order.kept(found.facts()))) {
            listener.note("the whole session of "
                    + Units.seconds((double) order.session().lengthS())
                    + " does not fit in the " + Units.bytes(free)
                    + " that are free here, so the verdict will be FAIL for want of room; free some, use a larger drive, "
                    + "or ask for a shorter session");
        }
    }

    /** Says beforehand where the session names other file systems, or larger files than this one takes. */
    void tellForeignFormat(FoundDrive found, Order order) {
        String type = found.facts().fileSystem();
        List<String> accepted = order.session().fileSystems();
        if (type != null && !accepted.isEmpty() && !accepted.contains(type)) {
            listener.note("the drive is formatted as " + TradeName.of(Inert.whole(type)) + ", and the session names "
                    + TradeName.all(accepted, " or ") + ", so there will be no PASS; if your recorder reads it, add "
                    + "--file-systems " + Inert.whole(type) + ", else format the drive in the recorder");
        } else if (type != null && type.startsWith("fat") && order.session().outgrowsFat()) {
            listener.note("the session lets a file grow to "
                    + Units.bytes(order.session().fileLimitBytes()) + ", and " + TradeName.of(Inert.whole(type))
                    + " takes none of 4 GiB, so there will be no PASS; if your recorder goes on in another file before "
                    + "that, give --file-limit 4294967295B, else format the drive as exFAT");
        }
    }

    /** The drive at {@code path}, if the run may be made there; warnings are shown. */
    public FoundDrive drive(Path path, Order order, boolean allowSystem) {
        return drive(path, order, asked(allowSystem));
    }

    private static SystemDrive asked(boolean allowSystem) {
        return allowSystem ? SystemDrive.ALLOWED : SystemDrive.MAY_BE_ALLOWED;
    }

    private FoundDrive drive(Path path, Order order, SystemDrive system) {
        FoundDrive found = Drives.at(rooms, path);
        List<Suitability.Finding> findings = new ArrayList<>(Suitability.of(
                found, look(path), order.budget(found.facts()).leastBytes(), order.reserve(found.facts()), system));
        findings.addAll(Suitability.files(filesLeft(path, found), leastFiles(order.session())));
        List<Suitability.Finding> refusals =
                findings.stream().filter(Suitability.Finding::refused).toList();
        if (!refusals.isEmpty()) {
            boolean mayChange =
                    refusals.stream().allMatch(refusal -> refusal.what().startsWith("free ")) || found.readOnly();
            if (mayChange) {
                tellLeftOvers(path);
            }
            throw new Problem(
                    mayChange ? Problem.Kind.CANNOT : Problem.Kind.ASKED_WRONG,
                    "no run is made in " + Inert.quoted(path) + ":\n"
                            + String.join(
                                    "\n",
                                    refusals.stream()
                                            .map(Suitability.Finding::sentence)
                                            .toList()),
                    "",
                    "",
                    system != SystemDrive.MAY_BE_ALLOWED
                                    || !Boolean.TRUE.equals(found.facts().system())
                            ? ""
                            : "--allow-system-drive allows the drive this computer runs from");
        }
        findings.forEach(finding -> listener.note(finding.sentence()));
        return found;
    }

    private static Suitability.Target look(Path path) {
        try {
            return Suitability.Target.of(path);
        } catch (IOException silent) {
            throw silent(path, silent);
        }
    }

    private static @Nullable Long filesLeft(Path path, FoundDrive found) {
        try {
            return TimedCall.within(
                    RealDrive.PATIENCE,
                    "ask for the files that fit at " + path,
                    () -> FilesLeft.in(path, found.facts().fileSystem()));
        } catch (IOException silent) {
            throw silent(path, silent);
        }
    }

    private static Problem silent(Path path, IOException why) {
        return Problem.cannot(
                "the drive at " + Inert.quoted(path) + " does not answer (" + Problem.reason(why) + ")",
                "plug it in again and try again");
    }

    /** Files a run has on the drive at once, whatever its plan: one of each stream, and its own. */
    private static int leastFiles(Session session) {
        return session.streams().size() + session.mixStreams().size() + OWN_FILES;
    }

    /** Refuses a folder for the records that lies on the drive under test, unless it is the computer's own. */
    private void keepApart(FoundDrive tested, RunFolder files) {
        FoundDrive holds;
        try {
            holds = rooms.driveAt(RunFolder.existing(files.folder()));
        } catch (IOException unknown) {
            listener.note("it could not be told whether " + Inert.quoted(files.folder())
                    + " is on the drive under test; make sure it is not");
            return;
        }
        if (!holds.lockKey().equals(tested.lockKey())) {
            return;
        }
        if (Boolean.TRUE.equals(tested.facts().system()) || !tested.isDevice()) {
            listener.note("the record is kept on the drive under test, as it is this computer's own");
            return;
        }
        throw Problem.askedWrong(
                Inert.quoted(files.folder())
                        + " is on the drive under test, and a record there would disturb the run and "
                        + "be lost with the drive",
                "name a folder of this computer with --out");
    }

    /** Tells of what earlier runs left behind. */
    private void tellLeftOvers(Path path) {
        List<LeftOver> left = leftOvers(path);
        if (!left.isEmpty()) {
            Long bytes = bytes(left);
            listener.leftOvers(
                    Count.inDigits(left.size(), "folder") + " of earlier runs "
                            + (left.size() == 1 ? "lies" : "lie") + " in " + Inert.quoted(path)
                            + (bytes == null
                                    ? ""
                                    : " and " + (left.size() == 1 ? "takes " : "take ") + Units.bytes(bytes)),
                    "to delete what they left: tracksoak clear " + Inert.whole(path.toString()) + " --yes");
        }
    }

    /** What earlier runs left behind in {@code path}. */
    static List<LeftOver> leftOvers(Path path) {
        try {
            return Workspace.leftOvers(path);
        } catch (IOException silent) {
            throw Problem.cannot(
                    "the folder " + Inert.quoted(path) + " cannot be looked into (" + Problem.reason(silent) + ")",
                    "plug the drive in again and try again");
        }
    }

    private static @Nullable Long bytes(List<LeftOver> left) {
        try {
            long sum = 0;
            for (LeftOver one : left) {
                sum += one.bytes();
            }
            return sum;
        } catch (IOException unknown) {
            return null;
        }
    }
}

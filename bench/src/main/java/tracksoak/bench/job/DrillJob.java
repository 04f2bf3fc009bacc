package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.RemountFinder;
import tracksoak.bench.drive.find.Suitability.SystemDrive;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.phase.drill.Drill;
import tracksoak.bench.phase.drill.DrillPort;
import tracksoak.bench.phase.drill.DrillRequest;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.DrillPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFormats;

/**
 * One drill: it is told while it goes on, its record is kept, and what it wrote is taken away from wherever the drive is
 * then. {@link #off} may be used by any thread at any time.
 */
public final class DrillJob {

    private final Rooms rooms;
    private final JobListener listener;
    private final OffSwitch off = new OffSwitch();

    public DrillJob(Rooms rooms, JobListener listener) {
        this.rooms = rooms;
        this.listener = listener;
    }

    /** A drill that was made, and where its record and sheet are kept. */
    public record Done(DrillRecord record, RunFolder files) {}

    /** Ends the drill soon, also one that has not begun. */
    public OffSwitch off() {
        return off;
    }

    /** The drive at {@code path}, if a drill may be made there; it may be spoilt by it, so whose it is should agree first. */
    public FoundDrive look(Path path, Order order, Path folder) {
        RunFolder files = RunFolder.in(folder, RunFolder.Kind.DRILL);
        return new Preflight(rooms, listener).pass(path, order, SystemDrive.NEVER, files);
    }

    /** Drills the drive that {@link #look} found at {@code path}. */
    public Done onDrive(FoundDrive found, Path path, Order order, DrillTerms terms, Path folder) {
        RunFolder files = RunFolder.in(folder, RunFolder.Kind.DRILL);
        RealTarget target = RealTarget.open(found, path, order.id().toString(), files.record(), rooms, listener);
        DrillRequest request = terms.request(order, target.facts());
        RealDrillPort port;
        try {
            port = new RealDrillPort(RemountFinder.of(target.workspace().folder(), request.runId()));
        } catch (IOException silent) {
            target.clean();
            throw Problem.cannot(
                    "the drive does not answer (" + Problem.reason(silent) + ")", "plug it in again and try again");
        }
        Drill started = null;
        try {
            started = begin(request, target, port, files);
            return done(started, files);
        } finally {
            listener.idle();
            clean(target, port, started);
        }
    }

    /** Drills a simulated drive. */
    public Done onModel(DriveModel model, Order order, DrillTerms terms, Path folder) {
        SimulatedTarget target = new SimulatedTarget(model, SystemClocks.EPOCH, order.hangLimitS());
        RunFolder files = RunFolder.in(folder, RunFolder.Kind.DRILL);
        try {
            DrillPort port = new SimulatedDrillPort(target.drive(), target.leftIn());
            return done(begin(terms.request(order, target.facts()), target, port, files), files);
        } finally {
            listener.idle();
            target.clean();
        }
    }

    private Done done(Drill started, RunFolder files) {
        DrillRecord record = started.call();
        listener.idle();
        save(record, files);
        return new Done(record, files);
    }

    private static void save(DrillRecord record, RunFolder files) {
        try {
            AtomicFile.write(files.record(), RecordFormats.DRILL.bytes(record));
            SheetFile.write(files.page(), DrillPage.render(record));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the drill's record and sheet cannot be written to " + Inert.quoted(files.folder()) + " ("
                            + Problem.reason(refused) + ")",
                    "make room there, or name another folder with --out");
        }
    }

    private void clean(RealTarget target, RealDrillPort port, @Nullable Drill started) {
        if (started != null && started.driveHangs()) {
            listener.driveHangs();
        }
        RealDrillPort.Place found = port.found();
        if (found != null) {
            target.clean(target.workspace().movedTo(found.folder()), found.drive());
        } else if (started == null
                || (target.drive().presence() != Drive.Presence.GONE && !started.driveHangs() && !port.unreachable())) {
            target.clean();
        } else {
            target.unlock();
            listener.trouble(Problem.cannot(
                    "what the drill wrote is still on the drive, in a folder "
                            + Inert.quoted(
                                    String.valueOf(target.workspace().folder().getFileName())),
                    "plug the drive in again, then: tracksoak clear PATH --yes"));
        }
    }

    private Drill begin(DrillRequest request, OpenTarget target, DrillPort port, RunFolder files) {
        Times.refuseWrongClock(Instant.ofEpochMilli(target.epoch().epochMillis()));
        Drill prepared;
        try {
            prepared = new Drill(request, target, port, rooms.host(), new DrillKeeper(files, listener));
        } catch (IllegalArgumentException unfit) {
            throw RunJob.unfit(unfit);
        }
        off.begins(prepared::cancel);
        return prepared;
    }
}

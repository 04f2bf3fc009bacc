package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.page.ClimbPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.DriveFacts;

/**
 * One climb: it is told while it goes on, its record and those of its sound-checks are kept, and what it wrote on the drive
 * is taken away. {@link #off} may be used by any thread at any time.
 */
public final class ClimbJob {

    private final Rooms rooms;
    private final JobListener listener;
    private final OffSwitch off = new OffSwitch();

    public ClimbJob(Rooms rooms, JobListener listener) {
        this.rooms = rooms;
        this.listener = listener;
    }

    /** A climb that was made, and where its record and page are kept. */
    public record Done(ClimbRecord record, RunFolder files) {}

    /** Ends the climb soon, also one that has not begun. */
    public OffSwitch off() {
        return off;
    }

    /**
     * What would be done at {@code path}.
     *
     * @param least the order of a sound-check on the lowest rung
     */
    public ClimbDryRun planOnDrive(Path path, Order least, ClimbTerms climb, JobTerms terms) {
        RunFolder files = files(terms);
        FoundDrive found = passed(path, least, terms, files);
        return plan(found.facts(), path.resolve("TRACKSOAK-*").toString(), List.of(), least, climb, files);
    }

    /** What would be done on a simulated drive. */
    public static ClimbDryRun planOnModel(DriveModel model, Order least, ClimbTerms climb, JobTerms terms) {
        SimulatedTarget target = simulated(model, least);
        return plan(target.facts(), target.leftIn(), target.behaves(), least, climb, files(terms));
    }

    private static ClimbDryRun plan(
            DriveFacts drive, String folder, List<String> behaves, Order least, ClimbTerms climb, RunFolder files) {
        return new ClimbDryRun(drive, folder, files.folder().toString(), behaves, climb, room(drive, least, climb));
    }

    /** Climbs on the drive at {@code path}. */
    public Done onDrive(Path path, Order least, ClimbTerms climb, JobTerms terms) {
        RunFolder files = files(terms);
        FoundDrive found = passed(path, least, terms, files);
        ClimbRoom room = room(found.facts(), least, climb);
        RealTarget target = RealTarget.open(found, path, least.id().toString(), files.record(), rooms, listener);
        return done(least, climb, room, target, null, files);
    }

    /** Climbs on a simulated drive, with a new one for each sound-check. */
    public Done onModel(DriveModel model, Order least, ClimbTerms climb, JobTerms terms) {
        Supplier<SimulatedTarget> fresh = () -> simulated(model, least);
        SimulatedTarget target = fresh.get();
        RunFolder files = files(terms);
        return done(least, climb, room(target.facts(), least, climb), target, fresh, files);
    }

    private static SimulatedTarget simulated(DriveModel model, Order least) {
        return new SimulatedTarget(model, SystemClocks.EPOCH, least.hangLimitS());
    }

    private static RunFolder files(JobTerms terms) {
        return RunFolder.in(terms.folder(), RunFolder.Kind.CLIMB);
    }

    private FoundDrive passed(Path path, Order least, JobTerms terms, RunFolder files) {
        return new Preflight(rooms, listener).pass(path, least, terms.allowSystem(), files);
    }

    private static ClimbRoom room(DriveFacts drive, Order least, ClimbTerms climb) {
        return ClimbRoom.of(climb.ladder(), drive, least.reserve(drive), climb.check(), climb.shortTakeS());
    }

    private Done done(
            Order least,
            ClimbTerms climb,
            ClimbRoom room,
            OpenTarget target,
            @Nullable Supplier<? extends OpenTarget> renewed,
            RunFolder files) {
        ClimbOrder order = new ClimbOrder(
                least.id().toString(),
                Version.tool(),
                least.payloadSeed(),
                climb.base(),
                room.ladder(),
                room.because(),
                climb.shortTakeS(),
                climb.fillCapS(),
                climb.check(),
                climb.askLoss(),
                climb.proveAbove() || renewed != null,
                target.facts(),
                rooms.host());
        ClimbKeeper keeper = new ClimbKeeper(files, order, target.virtual(), listener);
        TargetClimbRunner runner = new TargetClimbRunner(
                target,
                renewed,
                new TargetClimbRunner.Terms(
                        order.seed(), least.hangLimitS(), room.reserveBytes(), room.takeBytes(), order.host()),
                keeper);
        off.begins(runner.off()::cancel);
        ClimbRecord record;
        try {
            record = new Climb(order, runner, target.epoch(), keeper).call();
        } finally {
            listener.idle();
            if (runner.hangs()) {
                RunJob.leaveHanging(target, listener);
            } else {
                target.clean();
            }
        }
        try {
            SheetFile.write(files.page(), ClimbPage.render(record));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the page " + Inert.quoted(files.page()) + " cannot be written (" + Problem.reason(refused) + ")",
                    "make room there; the record is complete");
        }
        return new Done(record, files);
    }
}

package tracksoak.bench.job;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.RunRecord;

/**
 * The bench's main job: from an order and a drive to a verdict and a report. {@link #off} may be used by any thread at any
 * time, all else by one.
 */
public final class Qualify {

    private final Rooms rooms;
    private final JobListener listener;
    private final RunJob job;

    public Qualify(Rooms rooms, JobListener listener) {
        this(rooms, listener, new OffSwitch());
    }

    /** @param off ends what goes on */
    public Qualify(Rooms rooms, JobListener listener, OffSwitch off) {
        this.rooms = rooms;
        this.listener = listener;
        this.job = new RunJob(listener, off);
    }

    /** A run that was made, its record judged, and where that is kept. */
    public record Done(RunRecord record, RunFiles files) {}

    /** Ends the run soon, also one that has not begun, and any waiting for a drive. */
    public OffSwitch off() {
        return job.off();
    }

    /**
     * Waits for a drive to be plugged in and mounted.
     *
     * @param path where it will be mounted, or a folder on it; null for wherever the next one is
     * @param limitS gives up after this long, in s
     * @return null if it was switched off meanwhile
     */
    public PlugWait.@Nullable Came await(@Nullable Path path, double limitS) {
        PlugWait wait = new PlugWait(rooms.hotplug(), SystemClocks.NANO, SystemClocks.PARK, off()::cancelled);
        listener.waitsForDrive(path);
        PlugWait.Came came = wait.await(path, limitS);
        if (came != null) {
            listener.driveMounted(came.path());
        }
        return came;
    }

    /** What would be done at {@code path}. */
    public DryRun planOnDrive(Path path, Order order, JobTerms terms) {
        FoundDrive found = passed(path, order, terms, RunFiles.in(terms.folder()));
        return DryRun.of(
                order,
                found.facts(),
                path.resolve("TRACKSOAK-*").toString(),
                terms.folder().toString(),
                List.of());
    }

    /** What would be done on a simulated drive. */
    public static DryRun planOnModel(SimulatedTarget target, Order order, JobTerms terms) {
        return DryRun.of(order, target.facts(), target.leftIn(), terms.folder().toString(), target.behaves());
    }

    /**
     * Qualifies the drive at {@code path}.
     *
     * @param came how the drive came, null if it was not waited for
     */
    public Done onDrive(Path path, Order order, PlugWait.@Nullable Came came, JobTerms terms) {
        RunFiles files = RunFiles.in(terms.folder());
        FoundDrive found = passed(path, order, terms, files);
        RealTarget target = RealTarget.open(found, path, order.id().toString(), files.record(), rooms, listener);
        Order timed = came == null ? order : order.ready(came.ready(SystemClocks.NANO.nanoTime()));
        return done(target.reading(timed, path), target, files);
    }

    /** Qualifies a simulated drive. */
    public Done onModel(SimulatedTarget target, Order order, JobTerms terms) {
        RunFiles files = RunFiles.in(terms.folder());
        target.mustBear(order);
        return done(order, target, files);
    }

    private FoundDrive passed(Path path, Order order, JobTerms terms, RunFiles files) {
        Preflight preflight = new Preflight(rooms, listener);
        FoundDrive found = preflight.pass(path, order, terms.allowSystem(), files.folder());
        preflight.tellWhereItDoesNotFit(found, order);
        preflight.tellForeignFormat(found, order);
        return found;
    }

    private Done done(Order order, OpenTarget target, RunFiles files) {
        return new Done(job.run(order, target, rooms.host(), files), files);
    }
}

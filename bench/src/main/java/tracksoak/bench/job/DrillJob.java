package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.drill.DrillWatch;
import tracksoak.bench.drive.find.RemountFinder;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.phase.drill.Drill;
import tracksoak.bench.phase.drill.DrillPort;
import tracksoak.bench.phase.drill.DrillRequest;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.DrillRecord;
import tracksoak.report.record.facts.HostFacts;

/**
 * One drill on one target: it is shown while it goes on, its record is kept, and what it wrote is taken away from wherever
 * the drive is then. {@link #off} may be used by any thread at any time.
 */
public final class DrillJob {

    private final Console console;
    private final StopSignal stop;
    private final OffSwitch off = new OffSwitch();

    public DrillJob(Console console, StopSignal stop) {
        this.console = console;
        this.stop = stop;
    }

    /** Ends the drill soon, also one that has not begun. */
    public OffSwitch off() {
        return off;
    }

    /** Drills a real drive. */
    public DrillRecord onDrive(
            DrillRequest request, RealTarget target, HostFacts host, DrillFiles files, DrillWatch watch) {
        RealDrillPort port;
        try {
            port = new RealDrillPort(RemountFinder.of(target.workspace().folder(), request.runId()));
        } catch (IOException silent) {
            target.clean();
            throw Problem.cannot(
                    "the drive does not answer (" + RunFiles.reason(silent) + ")", "plug it in again and try again");
        }
        Drill started = null;
        try {
            started = begin(request, target, port, host, watch);
            return done(started, files, watch);
        } finally {
            watch.end();
            clean(target, port, started);
        }
    }

    /** Drills a simulated drive. */
    public DrillRecord onModel(
            DrillRequest request, SimulatedTarget target, HostFacts host, DrillFiles files, DrillWatch watch) {
        try {
            DrillPort port = new SimulatedDrillPort(target.drive(), target.leftIn());
            return done(begin(request, target, port, host, watch), files, watch);
        } finally {
            watch.end();
            target.clean();
        }
    }

    private static DrillRecord done(Drill started, DrillFiles files, DrillWatch watch) {
        DrillRecord record = started.call();
        watch.end();
        files.save(record);
        return record;
    }

    private void clean(RealTarget target, RealDrillPort port, @Nullable Drill started) {
        if (started != null && started.driveHangs()) {
            stop.doNotWait();
        }
        Path found = port.found();
        if (found != null) {
            target.clean(target.workspace().movedTo(found));
        } else if (started == null
                || (target.drive().presence() != Drive.Presence.GONE && !started.driveHangs() && !port.unreachable())) {
            target.clean();
        } else {
            target.unlock();
            console.complain(
                    "what the drill wrote is still on the drive, in a folder "
                            + Inert.quoted(
                                    String.valueOf(target.workspace().folder().getFileName())),
                    "plug the drive in again, then: tracksoak clear PATH --yes");
        }
    }

    private Drill begin(DrillRequest request, Target target, DrillPort port, HostFacts host, DrillWatch watch) {
        Drill prepared;
        try {
            prepared = new Drill(
                    request,
                    target.drive(),
                    port,
                    target.facts(),
                    host,
                    target.clock(),
                    target.epoch(),
                    target.waiter(),
                    target.virtual(),
                    watch);
        } catch (IllegalArgumentException unfit) {
            throw RunJob.unfit(unfit);
        }
        off.begins(prepared::cancel);
        return prepared;
    }
}

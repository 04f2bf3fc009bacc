package tracksoak.bench.job;

import java.util.List;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.SimulatedDrives;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;

/** A simulated drive on virtual time. */
public final class SimulatedTarget implements Target {

    private final VirtualClock clock;
    private final SimulatedDrive drive;
    private final DriveFacts facts;

    public SimulatedTarget(DriveModel model, EpochClock now, double hangLimitS) {
        clock = new VirtualClock(now.epochMillis());
        drive = model.plug(clock, Math.round(hangLimitS * 1e9));
        facts = drive.facts();
    }

    /** The model of a name, or a problem. */
    public static DriveModel model(String name) {
        return SimulatedDrives.named(name).orElseThrow(() -> {
            List<String> names =
                    SimulatedDrives.all().stream().map(DriveModel::name).toList();
            return Problem.askedWrong(
                    "no simulated drive is named " + Inert.quoted(name), "there are " + Count.list(names));
        });
    }

    @Override
    public SimulatedDrive drive() {
        return drive;
    }

    @Override
    public DriveFacts facts() {
        return facts;
    }

    @Override
    public NanoClock clock() {
        return clock;
    }

    @Override
    public EpochClock epoch() {
        return clock;
    }

    @Override
    public Waiter waiter() {
        return clock;
    }

    @Override
    public boolean virtual() {
        return true;
    }

    @Override
    public void clean() {
        drive.close();
    }

    @Override
    public String leftIn() {
        return facts.folder();
    }
}

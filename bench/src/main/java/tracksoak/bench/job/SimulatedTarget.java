package tracksoak.bench.job;

import java.io.File;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.catalog.DriveReader;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.profiles.Closest;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;

/** A simulated drive on virtual time. */
public final class SimulatedTarget implements OpenTarget {

    private final VirtualClock clock;
    private final SimulatedDrive drive;
    private final DriveFacts facts;
    private final List<String> behaves;

    public SimulatedTarget(DriveModel model, EpochClock now, double hangLimitS) {
        clock = new VirtualClock(now.epochMillis());
        drive = model.plug(clock, Math.round(hangLimitS * 1e9));
        facts = drive.facts();
        behaves = model.behaviours().stream().map(Behaviour::says).toList();
    }

    /**
     * The model of a name, or of a drive file: what ends in {@code .toml} or has a separator of paths in it.
     *
     * @throws tracksoak.profiles.ProfileException with everything that is wrong with a drive file
     */
    public static DriveModel model(String asked) {
        if (asked.endsWith(".toml") || asked.contains("/") || asked.contains(File.separator)) {
            return DriveReader.read(file(asked));
        }
        return SimulatedDrives.named(asked)
                .orElseThrow(() -> Problem.askedWrong(
                        "no simulated drive is named " + Inert.quoted(asked)
                                + Closest.hint(asked, SimulatedDrives.names()),
                        "there are " + Count.list(SimulatedDrives.names())
                                + "; or give a drive file of your own that ends in .toml"));
    }

    private static Path file(String asked) {
        try {
            return Path.of(asked);
        } catch (InvalidPathException e) {
            throw Problem.askedWrong(
                    Inert.quoted(asked) + " is no path on this computer", "give the path of a drive file (.toml)");
        }
    }

    /** How it behaves, one trait a text. */
    List<String> behaves() {
        return behaves;
    }

    /** Refuses what the drive has no room for, as it is refused on a real one. */
    void mustBear(Order order) {
        List<Suitability.Finding> full =
                Suitability.room(facts, order.budget(facts).leastBytes(), order.reserve(facts));
        if (!full.isEmpty()) {
            throw Problem.cannot(
                    "no run is made on the simulated drive: " + full.get(0).sentence(), "");
        }
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
    public Fault.@Nullable Kind clean() {
        drive.close();
        return null;
    }

    @Override
    public String leftIn() {
        return facts.folder();
    }
}

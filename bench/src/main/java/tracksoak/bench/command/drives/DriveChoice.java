package tracksoak.bench.command.drives;

import java.nio.file.Path;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.base.Problem;

/** What is worked on: a drive at a path, or a simulated one. */
public final class DriveChoice {

    @Parameters(
            paramLabel = "PATH",
            arity = "0..1",
            description = "A folder on the drive; tracksoak drives lists where drives are mounted.")
    @Nullable
    public Path path;

    @Option(
            names = "--simulated",
            paramLabel = "DRIVE",
            completionCandidates = SimulatedNames.class,
            description =
                    "A simulated drive instead: hours pass in seconds. One of ${COMPLETION-CANDIDATES}; or a drive file "
                            + "of your own (.toml).")
    @Nullable
    String simulated;

    /** Refuses none and both. */
    public void mustBeOne() {
        if ((path == null) == (simulated == null)) {
            throw wrong(path == null ? "no drive was given" : "a path and --simulated exclude each other");
        }
    }

    /** Does the one or the other and gives its exit code. */
    public int choose(ToIntFunction<Path> onDrive, ToIntFunction<DriveModel> onModel) {
        mustBeOne();
        Path asked = path;
        return asked != null
                ? onDrive.applyAsInt(asked)
                : onModel.applyAsInt(SimulatedTarget.model(String.valueOf(simulated)));
    }

    public boolean isSimulated() {
        return simulated != null;
    }

    /** A problem with the drive given, or not given. */
    public static Problem wrong(String what) {
        return Problem.askedWrong(
                what, "give the PATH of a folder on the drive (tracksoak drives lists them), or --simulated DRIVE");
    }
}

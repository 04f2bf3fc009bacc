package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.tray.LiveRun;
import tracksoak.profiles.base.SystemClocks;

/** For a run that others look at; nobody types these. */
final class LiveOptions {

    @Option(
            names = "--live",
            paramLabel = "FOLDER",
            hidden = true,
            description = "Folder of the run's order, where it says how it gets on.")
    @Nullable
    Path folder;

    @Option(names = "--alone", hidden = true, description = "Work while no other run of a tray does.")
    boolean alone;

    /** Who is told of a run that {@code off} ends. */
    Told told(JobListener lines, OffSwitch off) {
        Path run = folder;
        return run == null
                ? new Told(lines, null, alone)
                : new Told(lines, new LiveRun(run, lines, off, SystemClocks.EPOCH, SystemClocks.NANO), alone);
    }
}

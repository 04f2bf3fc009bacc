package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.job.PlugWait;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;

/** Waiting for the drive to be plugged in. */
final class WaitOptions {

    private static final double LONGEST_S = 24 * 3600;

    @Option(
            names = "--wait",
            description =
                    "Start when a drive is plugged in and mounted, and time it from plug-in to usable. PATH need not be "
                            + "there yet; without PATH the next drive that is mounted is taken.")
    boolean asked;

    @Option(
            names = "--wait-limit",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "10min",
            description = "With --wait: give up after this long: 10min.")
    double limitS;

    /** Waits; null if the person gave up. */
    PlugWait.@Nullable Came await(@Nullable Path path, Rooms rooms, Console console, OffSwitch off) {
        if (limitS < 1 || limitS > LONGEST_S) {
            throw Problem.askedWrong(
                    "--wait-limit is " + Units.seconds(limitS) + "; allowed: 1 s to 24 h", "choose a time in between");
        }
        PlugWait wait = new PlugWait(rooms.hotplug(), SystemClocks.NANO, SystemClocks.PARK, off::cancelled);
        console.say("waiting for a drive; plug it in now"
                + (path == null ? "" : " (it is to be mounted at " + Inert.quoted(path) + ")"));
        PlugWait.Came came = wait.await(path, limitS);
        if (came != null) {
            console.say("a drive is mounted at " + Inert.quoted(came.path()));
        }
        return came;
    }
}

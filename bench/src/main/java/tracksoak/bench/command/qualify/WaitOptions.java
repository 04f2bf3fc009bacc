package tracksoak.bench.command.qualify;

import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/** Waiting for the drive to be plugged in. */
final class WaitOptions {

    private static final double LONGEST_S = 24 * 3600;

    @Option(
            names = "--wait",
            description = "Start when a drive is plugged in, and time it until it is usable. PATH need not be "
                    + "there yet; without PATH the next drive that is mounted is taken.")
    boolean asked;

    @Option(
            names = "--wait-limit",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "10min",
            description = "With --wait: give up after this long, usually 10min.")
    double limitS;

    /** The limit in s. */
    double limitS() {
        if (limitS < 1 || limitS > LONGEST_S) {
            throw Problem.askedWrong(
                    "--wait-limit is " + Units.seconds(limitS) + "; allowed: 1 s to 24 h", "choose a time in between");
        }
        return limitS;
    }
}

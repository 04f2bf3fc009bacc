package tracksoak.bench.command.drives;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.job.Order;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/** How a run deals with the drive. */
public final class RunOptions {

    @Option(
            names = "--hang-limit",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "60s",
            description =
                    "A write that has not come back after this long is given up, usually 60s. A sleeping disk takes up to "
                            + "31 s to wake.")
    double hangLimitS;

    @Option(
            names = "--reserve",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description =
                    "Room that stays free on the drive, such as 1GB. Without it: 5 %% of the file system or 256 MiB, the "
                            + "larger.")
    @Nullable
    Long reserveBytes;

    @Option(
            names = "--seed",
            paramLabel = "N",
            description = "Seed of the bytes written, to repeat a run; a whole number. It stands in the record.")
    @Nullable
    Long seed;

    /** The hang limit in s. */
    public double hangLimitS() {
        if (hangLimitS < 1 || hangLimitS > 3600) {
            throw Problem.askedWrong(
                    "--hang-limit is " + Units.seconds(hangLimitS) + "; allowed: 1 s to 1 h",
                    "choose a time in between");
        }
        return hangLimitS;
    }

    /** An order with these, and an id of its own. */
    public Order order(Session session, Plan plan) {
        return Order.of(session, plan, hangLimitS(), reserveBytes, seed);
    }
}

package tracksoak.bench.command.drives;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.job.Order;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/** How a run deals with the drive. */
public final class RunOptions {

    /** Kept together, for a help of one screen leaves them to {@link tracksoak.bench.command.session.SessionOptions#HELP}. */
    @ArgGroup(validate = false, heading = "%nHow the drive is treated:%n")
    Treatment treatment = new Treatment();

    static final class Treatment {

        @Option(
                names = "--hang-limit",
                paramLabel = "TIME",
                converter = Amounts.Duration.class,
                description = "A write that has not come back after this long is given up, usually 60s. A sleeping disk"
                        + " takes up to 31 s to wake.")
        double hangLimitS = 60;

        @Option(
                names = "--reserve",
                paramLabel = "SIZE",
                converter = Amounts.Size.class,
                description =
                        "Room that stays free on the drive, such as 1GB. Without it: 5 %% of the file system or 256"
                                + " MiB, the larger.")
        @Nullable
        Long reserveBytes;

        @Option(
                names = "--seed",
                paramLabel = "N",
                description = "Seed of the bytes written, to repeat a run; a whole number. It stands in the record.")
        @Nullable
        Long seed;
    }

    /** The hang limit in s. */
    public double hangLimitS() {
        double limitS = treatment.hangLimitS;
        if (limitS < 1 || limitS > 3600) {
            throw Problem.askedWrong(
                    "--hang-limit is " + Units.seconds(limitS) + "; allowed: 1 s to 1 h", "choose a time in between");
        }
        return limitS;
    }

    /** An order with these, and an id of its own. */
    public Order order(Session session, Plan plan) {
        return Order.of(session, plan, hangLimitS(), treatment.reserveBytes, treatment.seed);
    }
}

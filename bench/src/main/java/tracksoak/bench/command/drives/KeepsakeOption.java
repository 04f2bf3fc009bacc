package tracksoak.bench.command.drives;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/** What to leave on the drive for a later run. */
public final class KeepsakeOption {

    private static final long LEAST = 4096;

    @Option(
            names = "--leave-keepsake",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description =
                    "Leave so much on the drive for the next run to read, such as 200MB. In whole files and a folder of its own. The "
                            + "next run reads it first and shows what the drive has kept. tracksoak clear deletes it only by name.")
    @Nullable
    Long size;

    /** Bytes to leave, 0 for none. */
    public long bytes(boolean simulated) {
        Long asked = size;
        if (asked == null) {
            return 0;
        }
        if (simulated) {
            throw Problem.askedWrong(
                    "a simulated drive is gone when its run ends, so it keeps nothing",
                    "leave out --leave-keepsake, or name a PATH");
        }
        if (asked < LEAST) {
            throw Problem.askedWrong(
                    "--leave-keepsake is " + Units.bytes(asked) + "; allowed: 4096 B or more", "name a larger size");
        }
        return asked;
    }
}

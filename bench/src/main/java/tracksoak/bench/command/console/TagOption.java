package tracksoak.bench.command.console;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** What the crew calls the drive. */
public final class TagOption {

    private static final int LONGEST = 60;

    @Option(
            names = "--tag",
            paramLabel = "TEXT",
            description =
                    "What the crew calls the drive, as written on it. It stands in the record, and finds the drive's "
                            + "earlier runs where it has no usable serial number.")
    @Nullable
    String text;

    /** The tag, null if none was given. */
    @Nullable
    public String tag() {
        String given = text;
        if (given == null) {
            return null;
        }
        String plain = given.strip();
        if (plain.isEmpty() || plain.length() > LONGEST || !Inert.text(plain).equals(plain)) {
            throw Problem.askedWrong(
                    "--tag is " + Inert.quoted(given) + "; allowed: 1 to " + LONGEST + " letters that show",
                    "write what stands on the drive");
        }
        return plain;
    }
}

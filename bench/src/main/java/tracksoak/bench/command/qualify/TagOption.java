package tracksoak.bench.command.qualify;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.report.roster.identity.DriveTag;

/** What the crew calls the drive. */
final class TagOption {

    @Option(
            names = "--tag",
            paramLabel = "TAG",
            description =
                    "What the crew calls the drive, as written on it. It stands in the record, and finds the drive's "
                            + "earlier runs where it has no usable serial number.")
    @Nullable
    String text;

    /**
     * The tag, null if none was given.
     *
     * @throws tracksoak.profiles.base.Problem if it is none that a roster takes
     */
    @Nullable
    String tag() {
        String given = text;
        return given == null ? null : DriveTag.of(given);
    }
}

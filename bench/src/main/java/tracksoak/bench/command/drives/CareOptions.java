package tracksoak.bench.command.drives;

import picocli.CommandLine.Option;

/** What keeps a person from doing more to a drive than they meant. */
public final class CareOptions {

    @Option(
            names = {"-n", "--dry-run"},
            description = "Only say what would be written where, for how long, at what wear.")
    public boolean dryRun;

    @Option(
            names = "--allow-system-drive",
            description = "Also test the drive this computer runs from. Its own work will disturb the run.")
    public boolean allowSystemDrive;
}

package tracksoak.bench.command.console;

import picocli.CommandLine.Option;

/** All that a run shows, for those who want it on the console too. */
public final class MoreOption {

    @Option(
            names = "--more",
            order = HelpOption.OF_MOST,
            description = "Show all that was found. It stands in the report, too.")
    public boolean asked;
}

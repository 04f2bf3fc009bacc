package tracksoak.bench.command.console;

import picocli.CommandLine.Option;

/** Every command explains itself. */
public final class HelpOption {

    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            description = "Show this help.")
    boolean help;
}

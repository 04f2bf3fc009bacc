package tracksoak.bench.command;

import picocli.CommandLine.Option;

/** Every command explains itself. */
final class HelpOption {

    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            description = "Show this help.")
    boolean help;
}

package tracksoak.bench.command.console;

import picocli.CommandLine.Option;

/** Every command explains itself. */
public final class HelpOption {

    /** What most commands have stands in their help behind what is their own. */
    static final int OF_MOST = 100;

    /** Last of all. */
    public static final int LAST = 101;

    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            order = LAST,
            description = "Show this help.")
    boolean help;
}

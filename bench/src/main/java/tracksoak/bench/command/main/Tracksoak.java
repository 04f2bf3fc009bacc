package tracksoak.bench.command.main;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.CommandGroup;
import tracksoak.bench.command.console.Console;

/** The word people type. On its own it shows the way in. */
@Command(
        name = "tracksoak",
        header = "Proves a drive before a live multitrack recording is trusted to it.",
        synopsisHeading = "%nUsage: ",
        commandListHeading = "%nCommands:%n",
        optionListHeading = "%nOptions:%n",
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "  0:PASS, or the command did what was asked",
            "  1:FAIL",
            "  2:the command line, or a file named in it, is wrong",
            "  3:could not run: drive gone, no room, internal error",
            "  4:NO VERDICT",
            "130:interrupted"
        },
        footer = {
            "",
            "First look:  tracksoak demo",
            "Your drive:  tracksoak drives",
            "             tracksoak sessions",
            "             tracksoak qualify PATH --session NAME --plan line-check"
        })
final class Tracksoak extends CommandGroup {

    @Option(
            names = {"-V", "--version"},
            versionHelp = true,
            description = "Show the version and the Java it runs on.")
    boolean version;

    Tracksoak(Console console) {
        super(console);
    }
}

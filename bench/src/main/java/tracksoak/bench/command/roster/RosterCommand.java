package tracksoak.bench.command.roster;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;

/** The crew's table of drives; what it does is in its own commands. */
@Command(
        name = "roster",
        header = "The crew's table of drives: which are trusted for which session.",
        description = {
            "Every qualify enters its record by itself. A drive is called by its tag, its id, or the first 6 characters of the "
                    + "id.",
            "Tonight's drives:  tracksoak roster list --tonight SESSION"
        },
        commandListHeading = "%nCommands:%n")
public final class RosterCommand implements Callable<Integer> {

    @Mixin
    HelpOption help = new HelpOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    private final Console console;

    public RosterCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        spec.commandLine().usage(console.err());
        return Exit.USAGE;
    }
}

package tracksoak.bench.command.roster;

import picocli.CommandLine.Command;
import tracksoak.bench.command.console.CommandGroup;
import tracksoak.bench.command.console.Console;

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
public final class RosterCommand extends CommandGroup {

    public RosterCommand(Console console) {
        super(console);
    }
}

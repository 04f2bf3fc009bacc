package tracksoak.bench.command.roster;

import picocli.CommandLine.Mixin;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.job.Rooms;

/** What the commands have in common that work with one roster. */
public abstract class OneRosterCommand extends JsonCommand {

    @Mixin
    public RosterOption rosterOption = new RosterOption();

    public OneRosterCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }
}

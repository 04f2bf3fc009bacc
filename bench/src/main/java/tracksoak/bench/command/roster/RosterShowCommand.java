package tracksoak.bench.command.roster;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.HistoryEntry;
import tracksoak.report.roster.Roster;

/** One drive, with all that happened to it. */
@Command(name = "show", header = "Show a drive: its standing and its history.", sortOptions = false)
public final class RosterShowCommand implements Callable<Integer> {

    @Parameters(paramLabel = "DRIVE", description = "Its tag, its id, or the first 6 characters of the id.")
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    RosterOption rosterOption = new RosterOption();

    @Mixin
    HelpOption help = new HelpOption();

    private final Console console;
    private final Rooms rooms;

    public RosterShowCommand(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    @Override
    public Integer call() {
        try (Roster roster = rosterOption.openThere(rooms, console)) {
            BoardRow row = roster.drive(drive, choice.given() ? choice.resolve(rooms) : null);
            List<HistoryEntry> history = roster.history(row.drive().id());
            RosterOption.tellSetAside(roster, console);
            if (json.asked) {
                console.out().println(JsonText.of(RosterDriveText.json(row, history)));
            } else {
                RosterDriveText.print(row, history, rosterOption.typed(), console);
            }
        }
        return Exit.DONE;
    }
}

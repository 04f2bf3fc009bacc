package tracksoak.bench.command.roster;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.HistoryEntry;
import tracksoak.report.roster.Roster;

/** One drive, with all that happened to it. */
@Command(name = "show", header = "Show a drive: its standing and its history.", sortOptions = false)
public final class RosterShowCommand extends OneRosterCommand {

    @Parameters(paramLabel = "DRIVE", description = "Its tag, its id, or the first 6 characters of the id.")
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Mixin
    SessionChoice choice = new SessionChoice();

    public RosterShowCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        try (Roster roster = rosterOption.openThere(rooms, console)) {
            BoardRow row = roster.drive(drive, choice.given() ? choice.resolve(rooms) : null);
            List<HistoryEntry> history = roster.history(row.drive().id());
            RosterOption.tellSetAside(roster, console);
            if (json.asked) {
                print(RosterDriveText.json(row, history));
            } else {
                RosterDriveText.print(row, history, rosterOption.typed(), console);
            }
        }
        return Exit.DONE;
    }
}

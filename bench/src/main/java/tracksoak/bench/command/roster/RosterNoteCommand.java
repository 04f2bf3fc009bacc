package tracksoak.bench.command.roster;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;

/** Writes what a person has to say of a drive. */
@Command(name = "note", header = "Write a note about a drive.", sortOptions = false)
public final class RosterNoteCommand extends RosterAct {

    @Parameters(index = "0", paramLabel = "DRIVE", description = WHICH_DRIVE)
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Parameters(index = "1..*", arity = "1..*", paramLabel = "NOTE", description = "The note.")
    @SuppressWarnings("NullAway.Init")
    String[] note;

    public RosterNoteCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(Roster roster, RosterDesk desk) {
        return List.of(
                desk.note(drive, text(note, "the note is empty", "write it after the drive; it stays in the history")));
    }
}

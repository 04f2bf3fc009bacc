package tracksoak.bench.command.roster;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;

/** Lifts every withdrawal of a drive that is known here. */
@Command(
        name = "restore",
        header = "Lift the withdrawal of a drive; its records say its standing again.",
        sortOptions = false)
public final class RosterRestoreCommand extends RosterAct {

    @Parameters(index = "0", paramLabel = "DRIVE", description = WHICH_DRIVE)
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Parameters(index = "1..*", arity = "1..*", paramLabel = "WHY", description = "Why, in a few words.")
    @SuppressWarnings("NullAway.Init")
    String[] why;

    public RosterRestoreCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(Roster roster, RosterDesk desk) {
        return List.of(desk.restore(drive, reason(why)));
    }
}

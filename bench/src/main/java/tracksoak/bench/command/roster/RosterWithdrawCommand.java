package tracksoak.bench.command.roster;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;

/** Takes a drive out of use for every session. */
@Command(name = "withdraw", header = "Take a drive out of use, until a person lifts that.", sortOptions = false)
public final class RosterWithdrawCommand extends RosterAct {

    @Parameters(index = "0", paramLabel = "DRIVE", description = WHICH_DRIVE)
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Parameters(index = "1..*", arity = "1..*", paramLabel = "WHY", description = "Why, in a few words.")
    @SuppressWarnings("NullAway.Init")
    String[] why;

    public RosterWithdrawCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(Roster roster, RosterDesk desk) {
        return List.of(desk.withdraw(drive, reason(why)));
    }
}

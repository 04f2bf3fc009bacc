package tracksoak.bench.command.roster;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;

/** Settles that a tag belongs to one drive: all others lose it, and this one all other tags. */
@Command(name = "settle", header = "Settle which drive bears a tag.", sortOptions = false)
public final class RosterSettleCommand extends RosterAct {

    @Parameters(index = "0", paramLabel = "TAG", description = "The tag that is settled.")
    @SuppressWarnings("NullAway.Init")
    String tag;

    @Parameters(index = "1", paramLabel = "DRIVE", description = WHICH_DRIVE)
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Parameters(index = "2..*", arity = "1..*", paramLabel = "WHY", description = "Why, in a few words.")
    @SuppressWarnings("NullAway.Init")
    String[] why;

    public RosterSettleCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(RosterDesk desk) {
        return desk.settle(tag, drive, reason(why));
    }
}

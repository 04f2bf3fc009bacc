package tracksoak.bench.command.roster;

import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;

/** Says that a drive bears a tag. */
@Command(name = "tag", header = "Give a drive the tag that is written on it.", sortOptions = false)
public final class RosterTagCommand extends RosterAct {

    @Parameters(index = "0", paramLabel = "DRIVE", description = WHICH_DRIVE)
    @SuppressWarnings("NullAway.Init")
    String drive;

    @Parameters(index = "1", paramLabel = "TAG", description = "What the crew writes on it, such as S-014.")
    @SuppressWarnings("NullAway.Init")
    String tag;

    @Parameters(index = "2..*", arity = "0..*", paramLabel = "WHY", description = "Why, if there is anything to say.")
    String[] why = {};

    public RosterTagCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(Roster roster, RosterDesk desk) {
        return List.of(desk.tag(drive, tag, String.join(" ", why)));
    }

    /** A tag beside another is a conflict, which bars the drive from tonight: whoever made it is the one to know. */
    @Override
    void tell(Roster roster, List<RosterEvent> events, Console console) {
        super.tell(roster, events, console);
        String given = String.valueOf(events.get(events.size() - 1).tag());
        for (Conflict conflict : roster.conflicts()) {
            if (conflict.tags().contains(given)) {
                console.complain(Inert.whole(conflict.cost()), conflict.todo(rosterOption.typed()));
            }
        }
    }
}

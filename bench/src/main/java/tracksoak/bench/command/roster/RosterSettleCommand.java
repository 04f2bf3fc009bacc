package tracksoak.bench.command.roster;

import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveTag;

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

    private String keeper = "";
    private Map<String, List<String>> lost = Map.of();

    public RosterSettleCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(Roster roster, RosterDesk desk) {
        RosterDesk.Settled settled = desk.settle(tag, drive, reason(why));
        keeper = settled.keeper();
        lost = settled.lost();
        return settled.events();
    }

    @Override
    Map<String, Object> more() {
        return Map.of("tag", DriveTag.of(tag), "keeper", keeper);
    }

    /** The drive that keeps the tag first, although nothing may have changed about it; then which tags were taken from where. */
    @Override
    void tell(Roster roster, List<RosterEvent> events, Console console) {
        String kept = DriveTag.of(tag);
        RosterEvent first = events.get(0);
        console.out()
                .println(Inert.whole("settled: " + kept + " belongs to "
                        + roster.drive(keeper, null).title() + " (" + keeper + "): " + first.why() + " (by "
                        + first.by() + ")"));
        lost.forEach((id, tags) -> console.out()
                .println(Inert.whole("  " + Count.list(tags) + " no longer on "
                        + (id.equals(keeper) ? "it" : left(roster.drive(id, null))))));
    }

    private static String left(BoardRow row) {
        List<String> tags = row.drive().tags();
        return row.title() + " (" + row.drive().id() + "), which "
                + (tags.isEmpty() ? "has no tag now" : "keeps " + Count.list(tags));
    }
}

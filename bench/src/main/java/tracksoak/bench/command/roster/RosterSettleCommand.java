package tracksoak.bench.command.roster;

import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
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

    public RosterSettleCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    List<RosterEvent> act(Roster roster, RosterDesk desk) {
        keeper = roster.drive(drive, null).drive().id();
        return desk.settle(tag, drive, reason(why));
    }

    @Override
    Map<String, Object> more() {
        return Map.of("tag", DriveTag.of(tag), "keeper", keeper);
    }

    /** The drive that keeps the tag first, although nothing may have changed about it; then what the others lost. */
    @Override
    void tell(Roster roster, List<RosterEvent> events, Console console) {
        String kept = DriveTag.of(tag);
        RosterEvent first = events.get(0);
        console.out()
                .println(Inert.whole("settled: " + kept + " belongs to "
                        + roster.drive(keeper, null).title() + " (" + keeper + "): " + first.why() + " (by "
                        + first.by() + ")"));
        events.stream()
                .map(event -> String.valueOf(event.drive()))
                .distinct()
                .filter(id -> !id.equals(keeper))
                .map(id -> roster.drive(id, null))
                .forEach(row -> console.out()
                        .println(Inert.whole("  no longer on " + row.title() + " ("
                                + row.drive().id() + ")"
                                + (row.drive().tags().isEmpty()
                                        ? ", which has no tag now"
                                        : ", which keeps "
                                                + String.join(", ", row.drive().tags())))));
    }
}

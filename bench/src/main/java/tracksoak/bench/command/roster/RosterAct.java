package tracksoak.bench.command.roster;

import java.util.List;
import java.util.Map;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.event.RosterEvent;

/** What the commands have in common by which a person acts: it is signed, kept, and said. */
abstract class RosterAct extends OneRosterCommand {

    static final String WHICH_DRIVE = "Its tag, its id, or the first 6 characters of the id.";

    RosterAct(Console console, Rooms rooms) {
        super(console, rooms);
    }

    /** Acts; says which events were made of it. */
    abstract List<RosterEvent> act(Roster roster, RosterDesk desk);

    /** Says what was done. */
    void tell(Roster roster, List<RosterEvent> events, Console console) {
        events.forEach(event -> console.out().println(Inert.whole(said(roster, event) + " (by " + event.by() + ")")));
    }

    /** What a program is told beside the events. */
    Map<String, Object> more() {
        return Map.of();
    }

    /** A reason of more than white space. */
    static String reason(String[] words) {
        return text(words, "no reason was given", "say in a few words why; it stays in the history");
    }

    /** What a person wrote, if it is more than white space. */
    static String text(String[] words, String missing, String todo) {
        String text = String.join(" ", words).strip();
        if (text.isEmpty()) {
            throw Problem.askedWrong(missing, todo);
        }
        return text;
    }

    @Override
    public Integer call() {
        try (Roster roster = rosterOption.openThere(rooms, console)) {
            List<RosterEvent> events = act(roster, roster.desk(RosterAccess.key(rooms)));
            if (json.asked) {
                Map<String, Object> document = JsonOption.document("roster-act/1");
                document.put(
                        "events", events.stream().map(RosterDriveText::json).toList());
                document.putAll(more());
                print(document);
            } else {
                tell(roster, events, console);
            }
        }
        return Exit.DONE;
    }

    private static String said(Roster roster, RosterEvent event) {
        String drive = event.drive();
        BoardRow row = drive == null ? null : roster.drive(drive, null);
        String label = row == null ? "" : row.label();
        String tag = event.tag() == null ? "" : event.tag();
        String why = event.why().isEmpty() ? "" : ": " + event.why();
        return switch (event.kind()) {
            case TAG_GIVEN -> "the drive is now tagged " + tag;
            case CONFLICT_SETTLED -> "settled for " + label + why;
            case DRIVE_WITHDRAWN -> label + " is out of use" + why;
            case DRIVE_RESTORED -> label + " is in use again" + why;
            case NOTE_WRITTEN -> "noted for " + label + why;
            case RECORD_ENTERED -> "entered for " + label;
            case KEY_ADDED -> "the key is known now" + why;
            case KEY_REVOKED -> "the key is no longer trusted" + why;
        };
    }
}

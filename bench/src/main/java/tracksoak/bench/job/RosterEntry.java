package tracksoak.bench.job;

import java.util.List;
import java.util.function.Supplier;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.store.RosterPlace;

/** Enters a judged run in the roster. Whatever goes wrong with that is told and changes nothing else. */
public final class RosterEntry {

    private final Rooms rooms;
    private final JobListener listener;

    public RosterEntry(Rooms rooms, JobListener listener) {
        this.rooms = rooms;
        this.listener = listener;
    }

    /** Enters a record, signed with the tester's key of this computer. */
    public void enter(RunRecord record, Supplier<RosterPlace> place) {
        try {
            enterAt(record, place);
        } catch (Problem wrong) {
            listener.notEntered(String.valueOf(wrong.getMessage()));
        } catch (RuntimeException | LinkageError wrong) {
            listener.notEntered(wrong.toString());
        }
    }

    /**
     * What about a tag a person would have to settle if a drive were entered under it, one sentence each. No roster is made where there
     * is none.
     */
    public static List<String> ifTagged(DriveFacts drive, String tag, Supplier<RosterPlace> place) {
        try {
            RosterPlace where = place.get();
            if (!where.isThere()) {
                return List.of();
            }
            try (Roster roster = RosterAccess.open(where)) {
                return roster.ifTagged(DriveIdentity.of(drive), tag).stream()
                        .map(Conflict::cost)
                        .toList();
            }
        } catch (Problem wrong) {
            return List.of("it could not be told whether the roster gives the tag " + tag + " to another drive: "
                    + Inert.whole(String.valueOf(wrong.getMessage())));
        }
    }

    private void enterAt(RunRecord record, Supplier<RosterPlace> place) {
        RosterPlace where;
        try {
            where = place.get();
        } catch (Problem wrong) {
            listener.notEntered(wrong.told());
            return;
        }
        try (Roster roster = RosterAccess.open(where)) {
            TesterKey key = RosterAccess.key(rooms);
            RosterEvent event = roster.desk(key).enter(SignedRecord.sign(record, key), null);
            String id = String.valueOf(event.drive());
            BoardRow row = roster.drive(id, null);
            listener.entered(id, row.label());
            row.conflicts().forEach(conflict -> listener.tagToSettle(conflict.cost(), conflict::todo));
        }
    }
}

package tracksoak.bench.job;

import java.util.function.Supplier;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.RosterEvent;
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
            row.conflicts().forEach(conflict -> listener.tagToSettle(conflict.cost()));
        }
    }
}

package tracksoak.report.roster.store;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BiPredicate;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.KeyRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.RecordedSession;

/** The rows of what follows from events: states of drives, sessions of records. */
final class DriveTable {

    private final Handle handle;
    private final EventTable events;

    private record Row(String id, long version, String state) {
        long sum() {
            return Sealed.row(id, version, state);
        }
    }

    /**
     * States, and whether all rows were as this program left them.
     *
     * @param whole always true where not all rows were asked for
     */
    record States(List<DriveState> states, boolean whole) {}

    DriveTable(Handle handle, EventTable events) {
        this.handle = handle;
        this.events = events;
    }

    CrewKeys keys() {
        return CrewKeys.of(events.aboutKeys());
    }

    States since(long version) {
        List<Row> rows = handle.sql("SELECT id, version, state FROM drive WHERE version > ?")
                .bind(0, version)
                .list(row -> new Row(row.getString(1), row.getLong(2), row.getString(3)));
        if (version >= 0 || rows.stream().mapToLong(Row::sum).sum() == sum()) {
            return new States(
                    rows.stream().map(row -> StateText.read(row.state)).toList(), true);
        }
        return new States(List.of(), false);
    }

    private long sum() {
        return handle.sql("SELECT drives_sum FROM roster_state WHERE id = 1").number();
    }

    /** Sessions of the records that hold and whose signer's key fits. */
    List<RecordedSession> sessions(BiPredicate<String, CrewKeys> signer) {
        CrewKeys keys = keys();
        Set<String> ids = new HashSet<>();
        handle.sql("SELECT DISTINCT session, signer FROM event"
                        + " WHERE session IS NOT NULL AND record_holds = 1 AND aside = 0")
                .list(row -> new String[] {row.getString(1), row.getString(2)})
                .forEach(pair -> {
                    if (signer.test(pair[1], keys)) {
                        ids.add(pair[0]);
                    }
                });
        return handle
                .sql("SELECT id, session FROM recorded_session ORDER BY id")
                .list(row -> new String[] {row.getString(1), row.getString(2)})
                .stream()
                .filter(row -> ids.contains(row[0]))
                .map(row -> RecordedSession.stored(row[0], row[1]))
                .toList();
    }

    void session(RecordedSession session) {
        handle.sql("INSERT INTO recorded_session (id, session) VALUES (?, ?) ON CONFLICT DO NOTHING")
                .bind(0, session.id())
                .bind(1, session.json())
                .execute();
    }

    /** Works out the drives that these events touch, those of a key whose standing may have changed included. */
    void follow(Collection<Intake.Checked> added, long version) {
        Set<String> drives = new HashSet<>();
        Set<String> keys = new HashSet<>();
        for (Intake.Checked checked : added) {
            String drive = checked.known().event().drive();
            KeyRef subject = checked.known().event().subject();
            if (drive != null) {
                drives.add(drive);
            } else if (subject != null) {
                keys.add(new VerifyKey(subject.key()).id());
                // a revocation waits for the key that made it to be known
                events.aboutKeys().stream()
                        .filter(known -> keys.contains(known.event().keyId()))
                        .map(known -> known.event().subject())
                        .filter(of -> of != null)
                        .forEach(of -> keys.add(new VerifyKey(of.key()).id()));
            }
        }
        drives.addAll(events.drivesOf(keys));
        drives.addAll(events.besides(drives));
        CrewKeys book = keys();
        drives.forEach(drive -> work(drive, book, version));
    }

    void work(String drive, CrewKeys book, long version) {
        List<KnownEvent> own = events.ofDrive(drive);
        String state = StateText.write(DriveFold.fold(drive, own, book, events.damagedWithdrawals(drive)));
        long before = handle.sql("SELECT id, version, state FROM drive WHERE id = ?")
                .bind(0, drive)
                .first(row -> new Row(row.getString(1), row.getLong(2), row.getString(3)).sum())
                .orElse(0L);
        handle.sql("INSERT INTO drive (id, version, state) VALUES (?, ?, ?)"
                        + " ON CONFLICT (id) DO UPDATE SET version = excluded.version, state = excluded.state")
                .bind(0, drive)
                .bind(1, version)
                .bind(2, state)
                .execute();
        // figures wrap around, in Java; a database would call that an error
        handle.sql("UPDATE roster_state SET drives_sum = ? WHERE id = 1")
                .bind(0, sum() - before + new Row(drive, version, state).sum())
                .execute();
    }

    List<String> all() {
        return handle.sql("SELECT DISTINCT drive FROM event WHERE drive IS NOT NULL")
                .texts();
    }

    void clear() {
        handle.execute("DELETE FROM drive");
        handle.execute("DELETE FROM recorded_session");
        handle.execute("UPDATE roster_state SET drives_sum = 0 WHERE id = 1");
    }
}

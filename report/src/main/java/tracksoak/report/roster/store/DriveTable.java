package tracksoak.report.roster.store;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import tracksoak.report.roster.event.KeyRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.SessionTerms;

/** The rows of what follows from events: states of drives, terms of sessions. */
final class DriveTable {

    private final Handle handle;
    private final EventTable events;

    DriveTable(Handle handle) {
        this.handle = handle;
        this.events = new EventTable(handle);
    }

    CrewKeys keys() {
        return CrewKeys.of(events.aboutKeys());
    }

    /** Parsing is most of the work of a first list: every core takes its part. */
    List<DriveState> since(long version) {
        return handle
                .createQuery("SELECT state FROM drive WHERE version > ?")
                .bind(0, version)
                .mapTo(String.class)
                .list()
                .parallelStream()
                .map(DerivedJson::state)
                .toList();
    }

    List<SessionTerms> sessions() {
        return handle.createQuery("SELECT id, session FROM session_terms ORDER BY id")
                .map((rows, context) -> SessionTerms.stored(rows.getString(1), rows.getString(2)))
                .list();
    }

    void terms(SessionTerms terms) {
        handle.createUpdate("INSERT INTO session_terms (id, session) VALUES (?, ?) ON CONFLICT DO NOTHING")
                .bind(0, terms.id())
                .bind(1, terms.json())
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
                keys.add(new tracksoak.report.record.sign.VerifyKey(subject.key()).id());
                // a revocation waits for the key that made it to be known
                events.aboutKeys().stream()
                        .filter(known -> keys.contains(known.event().keyId()))
                        .map(known -> known.event().subject())
                        .filter(of -> of != null)
                        .forEach(of -> keys.add(new tracksoak.report.record.sign.VerifyKey(of.key()).id()));
            }
        }
        drives.addAll(events.drivesOf(keys));
        CrewKeys book = keys();
        drives.forEach(drive -> work(drive, book, version));
    }

    void work(String drive, CrewKeys book, long version) {
        List<KnownEvent> own = events.ofDrive(drive);
        handle.createUpdate("INSERT INTO drive (id, version, state) VALUES (?, ?, ?)"
                        + " ON CONFLICT (id) DO UPDATE SET version = excluded.version, state = excluded.state")
                .bind(0, drive)
                .bind(1, version)
                .bind(2, DerivedJson.write(DriveFold.fold(drive, own, book)))
                .execute();
    }

    List<String> all() {
        return handle.createQuery("SELECT DISTINCT drive FROM event WHERE drive IS NOT NULL")
                .mapTo(String.class)
                .list();
    }

    void clear() {
        handle.execute("DELETE FROM drive");
        handle.execute("DELETE FROM session_terms");
    }
}

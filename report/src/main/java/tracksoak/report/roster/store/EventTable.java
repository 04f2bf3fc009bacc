package tracksoak.report.roster.store;

import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.StatementContext;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.standing.KnownEvent;

/** The rows of events and of the records they enter. */
final class EventTable {

    private static final String COLUMNS = "ref, body, digest, record_holds";

    private final Handle handle;

    EventTable(Handle handle) {
        this.handle = handle;
    }

    /** Adds an event with its record; false where it is there already. */
    boolean add(Intake.Checked checked, long version) {
        KnownEvent known = checked.known();
        RosterEvent event = known.event();
        RecordRef record = event.record();
        int added = handle.createUpdate("INSERT INTO event"
                        + " (ref, version, kind, drive, author, signer, record_sha, record_holds, body, digest)"
                        + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING")
                .bind(0, known.ref())
                .bind(1, version)
                .bind(2, event.kind().word())
                .bind(3, event.drive())
                .bind(4, event.keyId())
                .bind(5, record == null ? null : new VerifyKey(record.key()).id())
                .bind(6, record == null ? null : record.sha256())
                .bind(7, known.recordHolds() ? 1 : 0)
                .bind(8, new String(EventJson.bytes(event), StandardCharsets.UTF_8))
                .bind(9, known.digest() == null ? null : DerivedJson.write(known.digest()))
                .execute();
        if (added > 0 && record != null && checked.gzip() != null) {
            handle.createUpdate("INSERT INTO record_body (sha256, gzip) VALUES (?, ?) ON CONFLICT DO NOTHING")
                    .bind(0, record.sha256())
                    .bind(1, checked.gzip())
                    .execute();
        }
        return added > 0;
    }

    /** Notes again what was found out about an event. */
    void found(KnownEvent known) {
        handle.createUpdate("UPDATE event SET record_holds = ?, digest = ? WHERE ref = ?")
                .bind(0, known.recordHolds() ? 1 : 0)
                .bind(1, known.digest() == null ? null : DerivedJson.write(known.digest()))
                .bind(2, known.ref())
                .execute();
    }

    List<KnownEvent> ofDrive(String drive) {
        return handle.createQuery("SELECT " + COLUMNS + " FROM event WHERE drive = ? ORDER BY ref")
                .bind(0, drive)
                .map(EventTable::known)
                .list();
    }

    List<KnownEvent> aboutKeys() {
        return handle.createQuery("SELECT " + COLUMNS + " FROM event WHERE drive IS NULL ORDER BY ref")
                .map(EventTable::known)
                .list();
    }

    Optional<KnownEvent> find(String ref) {
        return handle.createQuery("SELECT " + COLUMNS + " FROM event WHERE ref = ?")
                .bind(0, ref)
                .map(EventTable::known)
                .findOne();
    }

    Optional<RecordRef> recordRef(String sha256) {
        return handle.createQuery("SELECT " + COLUMNS + " FROM event WHERE record_sha = ? ORDER BY ref LIMIT 1")
                .bind(0, sha256)
                .map(EventTable::known)
                .findOne()
                .map(known -> known.event().record());
    }

    byte @Nullable [] body(String sha256) {
        return handle.createQuery("SELECT gzip FROM record_body WHERE sha256 = ?")
                .bind(0, sha256)
                .map((rows, context) -> rows.getBytes(1))
                .findOne()
                .orElse(null);
    }

    List<String> refs(String after, int limit) {
        return handle.createQuery("SELECT ref FROM event WHERE ref > ? ORDER BY ref LIMIT ?")
                .bind(0, after)
                .bind(1, limit)
                .mapTo(String.class)
                .list();
    }

    List<Parcel> parcels(List<String> refs, long mostBytes) {
        List<Parcel> parcels = new ArrayList<>();
        long bytes = 0;
        for (String ref : refs) {
            Optional<KnownEvent> known = find(ref);
            if (known.isEmpty()) {
                continue;
            }
            RecordRef record = known.get().event().record();
            byte[] gzip = record == null ? null : body(record.sha256());
            bytes += gzip == null ? 0 : gzip.length;
            if (bytes > mostBytes && !parcels.isEmpty()) {
                break;
            }
            parcels.add(new Parcel(known.get().event(), gzip));
        }
        return parcels;
    }

    /** Drives with events or records signed by one of these keys. */
    Set<String> drivesOf(Set<String> keyIds) {
        Set<String> drives = new HashSet<>();
        for (String key : keyIds) {
            drives.addAll(handle.createQuery("SELECT drive FROM event WHERE author = ? AND drive IS NOT NULL"
                            + " UNION SELECT drive FROM event WHERE signer = ? AND drive IS NOT NULL")
                    .bind(0, key)
                    .bind(1, key)
                    .mapTo(String.class)
                    .list());
        }
        return drives;
    }

    private static KnownEvent known(ResultSet rows, StatementContext context) throws SQLException {
        String digest = rows.getString(3);
        return new KnownEvent(
                rows.getString(1),
                EventJson.read(rows.getString(2).getBytes(StandardCharsets.UTF_8)),
                digest == null ? null : DerivedJson.digest(digest),
                rows.getInt(4) != 0);
    }
}

package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.RosterException;
import tracksoak.report.roster.RosterPlace;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KeyBook;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.SessionTerms;

/**
 * A roster in SQLite or PostgreSQL. Every write first takes the one row of {@code roster_state}, so that writers come one
 * after another on both, and versions grow in the order in which changes are seen.
 */
public final class SqlStore implements RosterStore {

    private static final int PAGE = 200;

    private final RosterPlace place;
    private final Connections connections;
    private final Jdbi jdbi;

    private interface Work<T> {
        T with(Handle handle);
    }

    private SqlStore(RosterPlace place, Dialect dialect, Settings settings) {
        this.place = place;
        this.connections = new Connections(place, dialect, settings);
        this.jdbi = Jdbi.create(connections);
    }

    /**
     * Opens a store; makes it where it is not there.
     *
     * @throws RosterException if it cannot be opened, is damaged, or was written by a newer program
     */
    public static SqlStore open(RosterPlace place) {
        return open(place, Settings.USUAL);
    }

    static SqlStore open(RosterPlace place, Settings settings) {
        Dialect dialect = Dialect.of(place);
        try {
            Path file = place.file();
            if (file != null) {
                Files.createDirectories(file.toAbsolutePath().getParent());
            }
            Migrations.run(place, dialect, settings);
        } catch (IOException | SQLException | RuntimeException e) {
            throw Trouble.of(e, place);
        }
        SqlStore store = new SqlStore(place, dialect, settings);
        try {
            store.bringUpToDate();
            return store;
        } catch (RuntimeException e) {
            store.close();
            throw e;
        }
    }

    private void bringUpToDate() {
        int derived = read(handle -> handle.createQuery("SELECT derived FROM roster_state WHERE id = 1")
                .mapTo(Integer.class)
                .one());
        if (derived < DerivedJson.VERSION) {
            rebuild();
        }
    }

    @Override
    public int append(Collection<Intake.Checked> events) {
        return write(handle -> {
            long version = nextVersion(handle);
            EventTable table = new EventTable(handle);
            DriveTable drives = new DriveTable(handle);
            List<Intake.Checked> added = new ArrayList<>();
            for (Intake.Checked checked : events) {
                if (table.add(checked, version)) {
                    added.add(checked);
                    if (checked.terms() != null) {
                        drives.terms(checked.terms());
                    }
                }
            }
            if (added.isEmpty()) {
                handle.rollback();
            } else {
                drives.follow(added, version);
            }
            return added.size();
        });
    }

    @Override
    public void rebuild() {
        write(handle -> {
            long version = nextVersion(handle);
            DriveTable drives = new DriveTable(handle);
            EventTable table = new EventTable(handle);
            drives.clear();
            String after = "";
            for (List<String> refs = table.refs(after, PAGE); !refs.isEmpty(); refs = table.refs(after, PAGE)) {
                refs.forEach(ref -> again(ref, table, drives));
                after = refs.get(refs.size() - 1);
            }
            KeyBook book = drives.keys();
            drives.all().forEach(drive -> drives.work(drive, book, version));
            handle.createUpdate("UPDATE roster_state SET derived = ? WHERE id = 1")
                    .bind(0, DerivedJson.VERSION)
                    .execute();
            return 0;
        });
    }

    /** Looks an event over anew; what somebody changed in the database itself stays there, and its record counts for nothing. */
    private static void again(String ref, EventTable table, DriveTable drives) {
        for (Parcel parcel : table.parcels(List.of(ref), Long.MAX_VALUE)) {
            Optional<Intake.Checked> checked = Intake.outcome(parcel)
                    .good()
                    .filter(good -> good.known().ref().equals(ref));
            table.found(checked.map(Intake.Checked::known).orElse(new KnownEvent(ref, parcel.event(), null, false)));
            checked.map(Intake.Checked::terms).ifPresent(drives::terms);
        }
    }

    private static long nextVersion(Handle handle) {
        handle.execute("UPDATE roster_state SET version = version + 1 WHERE id = 1");
        return versionOf(handle);
    }

    private static long versionOf(Handle handle) {
        return handle.createQuery("SELECT version FROM roster_state WHERE id = 1")
                .mapTo(Long.class)
                .one();
    }

    @Override
    public long version() {
        return read(SqlStore::versionOf);
    }

    @Override
    public List<DriveState> drivesSince(long version) {
        return read(handle -> new DriveTable(handle).since(version));
    }

    @Override
    public KeyBook keys() {
        return read(handle -> new DriveTable(handle).keys());
    }

    @Override
    public List<SessionTerms> sessions() {
        return read(handle -> new DriveTable(handle).sessions());
    }

    @Override
    public List<KnownEvent> eventsOf(String drive) {
        return read(handle -> new EventTable(handle).ofDrive(drive));
    }

    @Override
    public List<KnownEvent> keyEvents() {
        return read(handle -> new EventTable(handle).aboutKeys());
    }

    @Override
    public Optional<KnownEvent> event(String ref) {
        return read(handle -> new EventTable(handle).find(ref));
    }

    @Override
    public Optional<RecordRef> recordRef(String sha256) {
        return read(handle -> new EventTable(handle).recordRef(sha256));
    }

    @Override
    public byte @Nullable [] body(String sha256) {
        return read(handle -> Optional.ofNullable(new EventTable(handle).body(sha256)))
                .orElse(null);
    }

    @Override
    public List<String> refs(String after, int limit) {
        return read(handle -> new EventTable(handle).refs(after, limit));
    }

    @Override
    public List<String> missing(Collection<String> refs) {
        return read(handle -> new EventTable(handle).missing(refs));
    }

    @Override
    public List<Parcel> parcels(List<String> refs, long mostBytes) {
        return read(handle -> new EventTable(handle).parcels(refs, mostBytes));
    }

    @Override
    public long count() {
        return read(handle -> handle.createQuery("SELECT COUNT(*) FROM event")
                .mapTo(Long.class)
                .one());
    }

    private <T> T read(Work<T> work) {
        try {
            return jdbi.withHandle(work::with);
        } catch (RuntimeException e) {
            throw Trouble.of(e, place);
        }
    }

    private <T> T write(Work<T> work) {
        try {
            return jdbi.inTransaction(work::with);
        } catch (RuntimeException e) {
            throw Trouble.of(e, place);
        }
    }

    @Override
    public void close() {
        connections.close();
    }
}

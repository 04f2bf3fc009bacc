package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.RosterPlace;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.SessionTerms;

/**
 * Keeps events, and what follows from them, in SQLite or PostgreSQL. Any thread. Every method throws {@link tracksoak.profiles.base.Problem} of
 * kind BUSY, CORRUPT, FULL or UNREACHABLE. Every write first takes the one row of {@code roster_state}, so that writers come one
 * after another on both, and versions grow in the order in which changes are seen.
 */
public final class SqlStore implements AutoCloseable {

    private static final int PAGE = 200;

    private final RosterPlace place;
    private final Connections connections;
    private final Jdbi jdbi;

    private interface Work<T> {
        T with(Handle handle);
    }

    private SqlStore(RosterPlace place, Dialect dialect, DataSource source) {
        this.place = place;
        this.connections = new Connections(dialect, source);
        this.jdbi = Jdbi.create(connections);
    }

    /**
     * Opens a store; makes it where it is not there.
     *
     * @throws Problem if it cannot be opened, is damaged, or was written by a newer program
     */
    public static SqlStore open(RosterPlace place) {
        return open(place, Settings.USUAL);
    }

    static SqlStore open(RosterPlace place, Settings settings) {
        Dialect dialect = Dialect.of(place);
        DataSource source = dialect.source(place, settings);
        try {
            Path file = place.file();
            if (file != null) {
                Files.createDirectories(file.toAbsolutePath().getParent());
            }
            Migrations.run(place, dialect, source);
        } catch (IOException | SQLException | RuntimeException e) {
            throw StoreProblems.of(e, place);
        }
        SqlStore store = new SqlStore(place, dialect, source);
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

    /**
     * Keeps events, all or none; what follows from them changes in the same transaction. When this returns they are on the
     * disk.
     *
     * @return how many were new
     */
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

    /** Works out anew what follows from the events, from the records themselves. */
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
            CrewKeys book = drives.keys();
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

    /** Number of the last change; grows by at least one with each. */
    public long version() {
        return read(SqlStore::versionOf);
    }

    /** States of the drives that changed after a version, 0 for all. */
    public List<DriveState> drivesSince(long version) {
        return read(handle -> new DriveTable(handle).since(version));
    }

    /** The testers' keys. */
    public CrewKeys keys() {
        return read(handle -> new DriveTable(handle).keys());
    }

    /** The terms of all sessions that records were made for. */
    public List<SessionTerms> sessions() {
        return read(handle -> new DriveTable(handle).sessions());
    }

    /** All events of a drive, in order of name. */
    public List<KnownEvent> eventsOf(String drive) {
        return read(handle -> new EventTable(handle).ofDrive(drive));
    }

    /** One event. */
    public Optional<KnownEvent> event(String ref) {
        return read(handle -> new EventTable(handle).find(ref));
    }

    /** A record and its signature as the first event entered it. */
    public Optional<RecordRef> recordRef(String sha256) {
        return read(handle -> new EventTable(handle).recordRef(sha256));
    }

    /** A record as it was kept, compressed. */
    public byte @Nullable [] body(String sha256) {
        return read(handle -> Optional.ofNullable(new EventTable(handle).body(sha256)))
                .orElse(null);
    }

    /** Names of events after one, in order. */
    public List<String> refs(String after, int limit) {
        return read(handle -> new EventTable(handle).refs(after, limit));
    }

    /**
     * Events with their records; those not there are left out.
     *
     * @param mostBytes stop before the records grow larger than this in all, but give at least one
     */
    public List<Parcel> parcels(List<String> refs, long mostBytes) {
        return read(handle -> new EventTable(handle).parcels(refs, mostBytes));
    }

    /** Number of events. */
    public long count() {
        return read(handle -> handle.createQuery("SELECT COUNT(*) FROM event")
                .mapTo(Long.class)
                .one());
    }

    private <T> T read(Work<T> work) {
        try {
            return jdbi.withHandle(work::with);
        } catch (RuntimeException e) {
            throw StoreProblems.of(e, place);
        }
    }

    private <T> T write(Work<T> work) {
        try {
            return jdbi.inTransaction(work::with);
        } catch (RuntimeException e) {
            throw StoreProblems.of(e, place);
        }
    }

    @Override
    public void close() {
        connections.close();
    }
}

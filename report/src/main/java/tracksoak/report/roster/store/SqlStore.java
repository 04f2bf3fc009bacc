package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.function.LongConsumer;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.OwnersOnly;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.RecordedSession;

/**
 * Keeps events, and what follows from them, in SQLite or PostgreSQL. Any thread. Every method throws {@link tracksoak.profiles.base.Problem} of
 * kind BUSY, CORRUPT, FULL or UNREACHABLE. Every write first takes the one row of {@code roster_state}, so that writers come one
 * after another on both, and versions grow in the order in which changes are seen.
 */
public final class SqlStore implements AutoCloseable {

    static final int PAGE = 200;
    private static final int MOST_TRIES = 3;
    private static final String CLASH =
            "another event with other content bears this name here: somebody made two of one name, look who signed"
                    + " them";

    private final RosterPlace place;
    private final Connections connections;
    private final Set<String> damaged = ConcurrentHashMap.newKeySet();

    private SqlStore(RosterPlace place, Connections connections) {
        this.place = place;
        this.connections = connections;
    }

    /**
     * Opens a store; makes it where it is not there.
     *
     * @throws Problem if it cannot be opened, is damaged or no roster, or was written by a newer program
     */
    public static SqlStore open(RosterPlace place) {
        return open(place, events -> {});
    }

    /**
     * The same.
     *
     * @param working told how many events are looked over anew before that is begun, once after an update
     */
    public static SqlStore open(RosterPlace place, LongConsumer working) {
        return open(place, Settings.USUAL, working);
    }

    static SqlStore open(RosterPlace place, Settings settings, LongConsumer working) {
        Path file = place.file();
        if (file != null) {
            FileHeader.check(file);
        }
        Dialect dialect = Dialect.of(place);
        DataSource source = dialect.source(place, settings);
        Connections connections = file == null
                ? new Connections(dialect, source)
                : new Connections(
                        dialect,
                        () -> dialect.source(place, settings),
                        () -> WriteProtected.state(file, SystemClocks.EPOCH));
        SqlStore store = new SqlStore(place, connections);
        try {
            if (file != null) {
                OwnersOnly.file(file);
            }
            Migrations.run(place, dialect, source, store.connections);
            store.bringUpToDate(working);
            return store;
        } catch (IOException | RuntimeException e) {
            store.close();
            throw StoreProblems.of(e, place);
        }
    }

    /** Whether anything was to be worked out. */
    private boolean bringUpToDate(LongConsumer working) {
        long derived = read(SqlStore::derived);
        boolean begun = derived == -DerivedJson.VERSION;
        if (derived >= DerivedJson.VERSION) {
            return false;
        }
        working.accept(read(handle -> begun ? events(handle).unread() : count(handle)));
        if (begun) {
            goOn("");
        } else {
            rebuild();
        }
        return true;
    }

    /**
     * What became of events that were to be kept.
     *
     * @param added how many were new, those included of which a damaged row was here
     * @param clashes events whose name another event bears here
     */
    public record Kept(int added, List<Receipt.Refusal> clashes) {
        public Kept {
            clashes = List.copyOf(clashes);
        }
    }

    /**
     * Keeps events, all or none but for those that clash; what follows from them changes in the same transaction. When this returns they
     * are on the disk.
     */
    public Kept append(Collection<Intake.Checked> events) {
        return write(handle -> {
            long version = nextVersion(handle);
            EventTable table = events(handle);
            DriveTable drives = new DriveTable(handle, table);
            List<Intake.Checked> added = new ArrayList<>();
            List<Receipt.Refusal> clashes = new ArrayList<>();
            for (Intake.Checked checked : events) {
                String ref = checked.known().ref();
                switch (table.add(checked, version)) {
                    case NEW, MENDED -> {
                        added.add(checked);
                        damaged.remove(ref);
                        if (checked.session() != null) {
                            drives.session(checked.session());
                        }
                    }
                    case CLASH -> clashes.add(new Receipt.Refusal(ref, CLASH));
                    case KNOWN -> {}
                }
            }
            if (added.isEmpty()) {
                handle.rollback();
            } else {
                drives.follow(added, version);
            }
            return new Kept(added.size(), clashes);
        });
    }

    /** Works out anew what follows from the events, from the records themselves; rows that are not what was signed are set aside. */
    public void rebuild() {
        goOn(write(handle -> {
                    events(handle).forget();
                    new DriveTable(handle, events(handle)).clear();
                    derived(handle, -DerivedJson.VERSION);
                    return Optional.ofNullable(page(handle, ""));
                })
                .orElse(null));
    }

    /** Works out what is wanting after an event, page by page: whoever is stopped on the way goes on from there the next time. */
    private void goOn(@Nullable String after) {
        String from = after;
        while (from != null) {
            String last = from;
            from = write(handle -> Optional.ofNullable(page(handle, last))).orElse(null);
        }
    }

    /** Looks events over anew; the last name of the page, null after the last page, when the drives are worked out as well. */
    private @Nullable String page(Handle handle, String after) {
        long version = nextVersion(handle);
        EventTable table = events(handle);
        DriveTable drives = new DriveTable(handle, table);
        String last = null;
        for (String ref : table.unread(after, PAGE)) {
            last = again(ref, table, drives, version);
        }
        // another may have come to the end before
        if (last == null && derived(handle) < DerivedJson.VERSION) {
            drives.workAll(version);
            derived(handle, DerivedJson.VERSION);
        }
        return last;
    }

    private static long derived(Handle handle) {
        return handle.sql("SELECT derived FROM roster_state WHERE id = 1").number();
    }

    private static int derived(Handle handle, int version) {
        return handle.sql("UPDATE roster_state SET derived = ? WHERE id = 1", version)
                .execute();
    }

    /** Looks an event over anew; its name now. What somebody changed in the database itself stays there, and counts for nothing. */
    private String again(String ref, EventTable table, DriveTable drives, long version) {
        Optional<Intake.Checked> checked = table.parcel(ref)
                .flatMap(parcel -> Intake.outcome(parcel).good())
                .filter(good -> good.known().ref().equals(ref)
                        || EventName.old(good.known().ref()).equals(ref));
        if (checked.isEmpty()) {
            table.setAside(ref);
            return ref;
        }
        Intake.Checked good = checked.get();
        table.again(ref, good, version);
        damaged.remove(ref);
        if (good.session() != null) {
            drives.session(good.session());
        }
        return good.known().ref();
    }

    private EventTable events(Handle handle) {
        return new EventTable(handle, damaged::add);
    }

    /**
     * Names of the events set aside, as far as they were met: rows that are not what was signed. They count for nothing, until whole ones come
     * in from another roster or a file.
     */
    public List<String> setAside() {
        TreeSet<String> all = new TreeSet<>(damaged);
        all.addAll(read(handle -> events(handle).aside()));
        return List.copyOf(all);
    }

    private static long nextVersion(Handle handle) {
        handle.execute("UPDATE roster_state SET version = version + 1 WHERE id = 1");
        return versionOf(handle);
    }

    private static long versionOf(Handle handle) {
        return handle.sql("SELECT version FROM roster_state WHERE id = 1").number();
    }

    /** Number of the last change; grows by at least one with each. */
    public long version() {
        return read(SqlStore::versionOf);
    }

    /**
     * Drives that changed, as they are now.
     *
     * @param states their states
     * @param sessions the sessions that their records were made for
     */
    public record Changed(List<DriveState> states, List<RecordedSession> sessions) {
        public Changed {
            states = List.copyOf(states);
            sessions = List.copyOf(sessions);
        }
    }

    /** The drives that changed after a version, -1 for all; where somebody changed rows of these, they are made anew first. */
    public Changed changedSince(long version) {
        for (int i = 0; i < MOST_TRIES; i++) {
            DriveTable.States found = snapshot(handle -> new DriveTable(handle, events(handle)).since(version));
            if (found.whole()) {
                return new Changed(found.states(), found.sessions());
            }
            if (!bringUpToDate(events -> {})) {
                rebuild();
            }
        }
        throw Kind.CORRUPT.problem(
                "the roster cannot be used",
                "what follows from its events is changed again and again at " + place,
                "end the other programs that write to it");
    }

    /** The testers' keys. */
    public CrewKeys keys() {
        return read(handle -> new DriveTable(handle, events(handle)).keys());
    }

    /** The sessions of records with good signatures, in order of name; of one name, that with the shortest validity first. */
    public List<Session> namedSessions() {
        return read(handle -> new DriveTable(handle, events(handle)).goodSessions()).stream()
                .sorted(Comparator.<RecordedSession, String>comparing(
                                one -> one.session().name())
                        .thenComparingInt(one -> one.session().validDays())
                        .thenComparing(RecordedSession::id))
                .map(RecordedSession::session)
                .toList();
    }

    /** The tags of a drive that stand, see {@link DriveFold#tags}. */
    public List<Claim> tagClaims(String drive) {
        return read(handle -> fold(handle, drive).tags());
    }

    /**
     * What happened to a drive.
     *
     * @param events those that are its own or bear on it, and those that can be read and are not what was signed; in no order
     * @param lifted names of withdrawals and tags that do not stand any more
     */
    public record Past(List<KnownEvent> events, Set<String> lifted) {
        public Past {
            events = List.copyOf(events);
            lifted = Set.copyOf(lifted);
        }
    }

    /**
     * All that happened to a drive. What was said of a record before it had this drive's tag, or under one that was taken back, belongs to it;
     * that the record was entered there does not, unless it is a FAIL that counts here.
     */
    public Past past(String drive) {
        return read(handle -> {
            DriveFold fold = fold(handle, drive);
            Set<String> counted = new HashSet<>();
            fold.state().marks().forEach(mark -> counted.add(mark.ref()));
            List<KnownEvent> past = new ArrayList<>();
            Set<String> lifted = new HashSet<>();
            for (String place : fold.places()) {
                for (KnownEvent known : events(handle).allAbout(place)) {
                    if (place.equals(drive)
                            || known.event().kind() != EventKind.RECORD_ENTERED
                            || counted.contains(known.ref())) {
                        past.add(known);
                        if (fold.lifted(known)) {
                            lifted.add(known.ref());
                        }
                    }
                }
            }
            return new Past(past, lifted);
        });
    }

    private DriveFold fold(Handle handle, String drive) {
        EventTable table = events(handle);
        return DriveFold.of(drive, table.source(List.of(drive)), CrewKeys.of(table.aboutKeys()));
    }

    /** One event. */
    public Optional<KnownEvent> event(String ref) {
        return read(handle -> events(handle).find(ref));
    }

    /** A record with the best signature that an event gives it. */
    public Optional<RecordRef> recordRef(String sha256) {
        return read(handle -> {
            EventTable table = events(handle);
            return DriveFold.best(table.entering(sha256), CrewKeys.of(table.aboutKeys()))
                    .map(known -> known.event().record());
        });
    }

    /** A record as it was kept, compressed. */
    public byte @Nullable [] body(String sha256) {
        return read(handle -> Optional.ofNullable(events(handle).body(sha256))).orElse(null);
    }

    /** Names of events after one, in order. */
    public List<String> refs(String after, int limit) {
        return read(handle -> events(handle).refs(after, limit));
    }

    /**
     * Events with their records; those not there are left out.
     *
     * @param mostBytes stop before the records grow larger than this in all, but give at least one
     */
    public List<Parcel> parcels(List<String> refs, long mostBytes) {
        return read(handle -> events(handle).parcels(refs, mostBytes));
    }

    /** Number of events. */
    public long count() {
        return read(SqlStore::count);
    }

    private static long count(Handle handle) {
        return handle.sql("SELECT COUNT(*) FROM event").number();
    }

    private <T> T read(Function<Handle, T> work) {
        try {
            return connections.with(work);
        } catch (RuntimeException e) {
            throw StoreProblems.of(e, place);
        }
    }

    /** Reads all at one moment. */
    private <T> T snapshot(Function<Handle, T> work) {
        try {
            return place.file() == null
                    ? connections.inTransaction(Connection.TRANSACTION_REPEATABLE_READ, work)
                    : connections.inTransaction(Connection.TRANSACTION_NONE, work);
        } catch (RuntimeException e) {
            throw StoreProblems.of(e, place);
        }
    }

    private <T> T write(Function<Handle, T> work) {
        try {
            return connections.inTransaction(Connection.TRANSACTION_NONE, work);
        } catch (RuntimeException e) {
            throw StoreProblems.of(e, place);
        }
    }

    @Override
    public void close() {
        connections.close();
    }
}

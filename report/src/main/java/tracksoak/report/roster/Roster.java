package tracksoak.report.roster;

import java.io.IOException;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.identity.DriveTag;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.Question;
import tracksoak.report.roster.standing.SessionStanding;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;

/**
 * The crew's table of drives. Reading is here; what people do is at the {@link #desk}; other rosters come and go through
 * {@link #peer}. Any thread. Every method throws {@link Problem}.
 */
public final class Roster implements AutoCloseable {

    private final SqlStore store;
    private final InstantSource clock;
    private final Object refreshing = new Object();
    private final CoalescingSupplier version;
    private volatile @Nullable RosterView view;

    private Roster(SqlStore store, InstantSource clock) {
        this.store = store;
        this.clock = clock;
        this.version = new CoalescingSupplier(store::version);
    }

    /**
     * Opens a roster; an SQLite file is made on first use.
     *
     * @param clock the wall clock; decides what is due and dates what is entered
     */
    public static Roster open(RosterPlace place, InstantSource clock) {
        return new Roster(SqlStore.open(place), clock);
    }

    /**
     * The same.
     *
     * @param working told how many events are looked over anew before that is begun, once after an update
     */
    public static Roster open(RosterPlace place, InstantSource clock, LongConsumer working) {
        return new Roster(SqlStore.open(place, working), clock);
    }

    /** A roster on a store of one's own. */
    public static Roster on(SqlStore store, InstantSource clock) {
        return new Roster(store, clock);
    }

    /** Lists drives. */
    public Board board(BoardQuery query) {
        Instant now = clock.instant();
        RosterView current = view();
        SessionRows rows = current.sorted().of(query.session(), now);
        List<ListedRow> all = rows.by(query.sort(), query.descending());
        Map<Standing, Integer> counts = rows.counts();
        int held = all.size();
        int unsettled = 0;
        String text = query.text().strip().toLowerCase(Locale.ROOT);
        if (!text.isEmpty() || query.unsettled()) {
            List<ListedRow> named = all.stream()
                    .filter(row -> text.isEmpty() || row.drive().contains(text))
                    .toList();
            all = !query.unsettled()
                    ? named
                    : named.stream()
                            .filter(row -> row.row().conflicts().isEmpty())
                            .toList();
            unsettled = wanted(named, query).size() - wanted(all, query).size();
            counts = SessionRows.counts(all);
        }
        List<ListedRow> found = wanted(all, query);
        int from = Math.min(query.offset(), found.size());
        List<BoardRow> page = found.subList(from, from + Math.min(query.limit(), found.size() - from)).stream()
                .map(ListedRow::row)
                .toList();
        return new Board(now, page, found.size(), counts, held, unsettled);
    }

    private static List<ListedRow> wanted(List<ListedRow> rows, BoardQuery query) {
        return query.standings().isEmpty()
                ? rows
                : rows.stream()
                        .filter(row -> query.standings().contains(row.standing()))
                        .toList();
    }

    /**
     * One drive.
     *
     * @param drive its tag, its id, or at least 6 characters of the beginning of the id
     * @param session the session its standing is for, null for that of its latest record
     */
    public BoardRow drive(String drive, @Nullable Session session) {
        RosterView current = view();
        return current.row(current.find(drive), session, clock.instant());
    }

    /** Standing of a drive for each of some sessions, in their order; the sessions by name. */
    public Map<String, SessionStanding> standings(String drive, List<Session> sessions) {
        RosterView current = view();
        DriveState state = current.find(drive);
        Instant now = clock.instant();
        Map<String, SessionStanding> standings = new LinkedHashMap<>();
        for (Session session : sessions) {
            standings.put(
                    session.name(),
                    Question.of(session, current.sessions(), now).ask(state));
        }
        return standings;
    }

    /** All that happened to a drive, the latest first. The authors' signatures are verified again, not taken from memory. */
    public List<HistoryEntry> history(String drive) {
        String id = view().find(drive).id();
        SqlStore.Past past = store.past(id);
        CrewKeys book = store.keys();
        Instant soon = clock.instant().plus(Question.CLOCKS_DIFFER);
        List<HistoryEntry> history = new ArrayList<>();
        for (KnownEvent known : past.events().stream()
                .sorted(Comparator.comparing(KnownEvent::ref).reversed())
                .toList()) {
            RosterEvent event = known.event();
            RecordRef record = event.record();
            boolean future = event.at().isAfter(soon)
                    || (known.digest() != null && known.digest().endedAtMs() > soon.toEpochMilli());
            history.add(new HistoryEntry(
                    event,
                    book.judge(event.keyId(), event.holds()),
                    known.digest(),
                    record == null ? null : book.judge(new VerifyKey(record.key()).id(), known.recordHolds()),
                    past.lifted().contains(known.ref()),
                    future));
        }
        return history;
    }

    /**
     * A record as it was signed; its signature is verified again, not taken from memory.
     *
     * @param sha256 SHA-256 of its canonical JSON, which gives it the best signature known, or the name of an event that entered it
     */
    public SignedRecord signedRecord(String sha256) {
        RecordRef ref = store.event(sha256)
                .map(known -> known.event().record())
                .orElseGet(() -> store.recordRef(sha256).orElse(null));
        byte[] gzip = ref == null ? null : store.body(ref.sha256());
        if (ref == null || gzip == null) {
            throw Kind.NOT_FOUND.problem(
                    "the record " + tracksoak.profiles.base.Inert.text(sha256) + " is not known",
                    "no event in the roster entered it",
                    "take its name from the drive's history");
        }
        try {
            return Intake.signed(ref, Intake.unpack(gzip));
        } catch (IOException e) {
            throw Kind.CORRUPT.problem(
                    "the record " + ref.sha256() + " cannot be read",
                    String.valueOf(e.getMessage()),
                    "get it again by a sync with a roster that has it",
                    e);
        }
    }

    /** Whether a record was entered, by the SHA-256 of its canonical JSON. */
    public boolean hasRecord(String sha256) {
        return store.recordRef(sha256).isPresent();
    }

    /** The run record itself, see {@link #signedRecord}. */
    public RunRecord record(String sha256) {
        return signedRecord(sha256).record();
    }

    /** The testers' keys. */
    public CrewKeys keys() {
        return store.keys();
    }

    /** What about tags must be settled by a person. */
    public List<Conflict> conflicts() {
        return view().conflicts();
    }

    /** What about tags a person would have to settle if a drive were entered under a tag ({@link DriveTag#of}); nothing is entered. */
    public List<Conflict> ifTagged(DriveIdentity identity, String tag) {
        return view().ifTagged(identity, tag);
    }

    /** The sessions that records with good signatures were made for, by name; of one name, that with the shortest validity first. */
    public List<Session> sessions() {
        return store.namedSessions();
    }

    /** Number of the last change: cheap to ask, grows with each, also with those of other processes. */
    public long version() {
        return version.get();
    }

    /** Number of events kept. */
    public long events() {
        return store.count();
    }

    /** Where people act. */
    public RosterDesk desk(TesterKey author) {
        return new RosterDesk(this, store, author, clock);
    }

    /** This roster as another sees it. */
    public RosterPeer peer() {
        return new OwnPeer(this, store);
    }

    /** Takes what another roster has, after looking it over. What is refused keeps nothing else from being taken. */
    public Receipt take(List<Parcel> parcels) {
        List<Intake.Outcome> outcomes =
                parcels.parallelStream().map(Intake::outcome).toList();
        List<Intake.Checked> good =
                outcomes.stream().flatMap(one -> one.good().stream()).toList();
        List<Receipt.Refusal> refused =
                outcomes.stream().flatMap(one -> one.refused().stream()).toList();
        SqlStore.Kept kept = keep(good);
        Receipt receipt = new Receipt(
                kept.added(), good.size() - kept.added() - kept.clashes().size(), refused);
        return receipt.and(new Receipt(0, 0, kept.clashes()));
    }

    SqlStore.Kept keep(List<Intake.Checked> events) {
        return events.isEmpty() ? new SqlStore.Kept(0, List.of()) : store.append(events);
    }

    /**
     * Names of the events that were met and are not as they were signed, for example because a sector of the disk went bad. They count for nothing
     * until whole ones come in by a sync or an import.
     */
    public List<String> setAside() {
        return store.setAside();
    }

    /** Works out anew, from the events and records themselves, all that follows from them. */
    public void rebuild() {
        store.rebuild();
    }

    RosterView view() {
        long version = version();
        RosterView current = view;
        if (current != null && current.version == version) {
            return current;
        }
        synchronized (refreshing) {
            RosterView old = view;
            if (old != null && old.version >= version) {
                return old;
            }
            SqlStore.Changed changed = store.changedSince(old == null ? -1 : old.version);
            RosterView fresh = old == null
                    ? RosterView.of(version, changed.states(), changed.sessions())
                    : old.next(version, changed.states(), changed.sessions(), clock.instant());
            view = fresh;
            return fresh;
        }
    }

    @Override
    public void close() {
        store.close();
    }
}

package tracksoak.report.roster.store;

import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.KnownEvent;

/**
 * The rows of events and of the records they enter. A row whose text is not that which its name stands for is no event: it is passed
 * over, and told of by its name.
 */
final class EventTable {

    private static final String COLUMNS = "ref, body, digest, record_holds";

    /** Drives asked about in one statement. */
    private static final int TOGETHER = 50;

    /** Rows looked at in one go, so that the largest events do not fill the memory. */
    private static final int CHUNK = 500;

    /** What became of an event that was to be added. */
    enum Added {
        NEW,
        /** A row of that name was damaged, and is whole now. */
        MENDED,
        KNOWN,
        /** Another event has the same name. */
        CLASH
    }

    private final Handle handle;
    private final Consumer<String> damaged;

    /** @param damaged told the name of each row that is no event */
    EventTable(Handle handle, Consumer<String> damaged) {
        this.handle = handle;
        this.damaged = damaged;
    }

    /** Adds an event with its record; over a row of its name that is damaged. */
    Added add(Intake.Checked checked, long version) {
        KnownEvent known = checked.known();
        if (insert(checked, version) > 0) {
            body(checked, "DO NOTHING");
            return Added.NEW;
        }
        byte[] bytes = EventJson.bytes(known.event());
        Raw there = raw(known.ref()).orElse(null);
        if (there == null || (there.whole() && !there.aside)) {
            return there == null || there.is(bytes) ? Added.KNOWN : Added.CLASH;
        }
        handle.sql("DELETE FROM event WHERE ref = ?", known.ref()).execute();
        insert(checked, version);
        body(checked, "(sha256) DO UPDATE SET gzip = excluded.gzip");
        return Added.MENDED;
    }

    private int insert(Intake.Checked checked, long version) {
        KnownEvent known = checked.known();
        RosterEvent event = known.event();
        RecordRef record = event.record();
        return handle.sql(
                        "INSERT INTO event (ref, version, kind, drive, author, signer, record_sha, record_holds, body,"
                                + " digest, loose, session) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO"
                                + " NOTHING",
                        known.ref(),
                        version,
                        event.kind().word(),
                        event.drive(),
                        event.keyId(),
                        record == null ? null : new VerifyKey(record.key()).id(),
                        record == null ? null : record.sha256(),
                        known.recordHolds() ? 1 : 0,
                        new String(EventJson.bytes(event), StandardCharsets.UTF_8),
                        Sealed.text(known),
                        event.looseDrive(),
                        checked.session() == null ? null : checked.session().id())
                .execute();
    }

    private void body(Intake.Checked checked, String onConflict) {
        RecordRef record = checked.known().event().record();
        if (record != null && checked.gzip() != null) {
            handle.sql(
                            "INSERT INTO record_body (sha256, gzip) VALUES (?, ?) ON CONFLICT " + onConflict,
                            record.sha256(),
                            checked.gzip())
                    .execute();
        }
    }

    /** Writes anew all that follows from the event in a row, its name included. */
    void again(String ref, Intake.Checked checked, long version) {
        handle.sql("DELETE FROM event WHERE ref = ?", ref).execute();
        insert(checked, version);
    }

    /** Marks a row that is not what was signed. */
    void setAside(String ref) {
        handle.sql("UPDATE event SET aside = 1, digest = NULL, record_holds = 0 WHERE ref = ?", ref)
                .execute();
        damaged.accept(ref);
    }

    /** Names of the rows set aside. */
    List<String> aside() {
        // in no order, or SQLite walks through all rows in that order instead of the few that its index has
        return handle.sql("SELECT ref FROM event WHERE aside <> 0 LIMIT 1000").texts();
    }

    /** What folds of these drives ask for; it is read for all of them together, and what they ask for twice once. */
    DriveFold.Source source(List<String> drives) {
        return new Source(drives);
    }

    private final class Source implements DriveFold.Source {

        private final Map<String, List<KnownEvent>> about = new HashMap<>();
        private final Map<String, List<String>> damagedWithdrawals = new HashMap<>();
        private final Map<String, List<KnownEvent>> tagging = new HashMap<>();

        private Source(List<String> drives) {
            read(drives);
        }

        private void read(List<String> drives) {
            drives.forEach(drive -> {
                about.put(drive, new ArrayList<>());
                damagedWithdrawals.put(drive, new ArrayList<>());
            });
            handle.sql("SELECT " + COLUMNS + ", drive, kind, aside FROM event WHERE drive IN (?) ORDER BY ref", drives)
                    .list(this::put);
        }

        private String put(ResultSet rows) throws SQLException {
            String drive = rows.getString(5);
            Optional<KnownEvent> known = rows.getInt(7) == 0 ? known(rows, false) : Optional.empty();
            if (known.isPresent()) {
                about.computeIfAbsent(drive, key -> new ArrayList<>()).add(known.get());
            } else if (rows.getString(6).equals(EventKind.DRIVE_WITHDRAWN.word())) {
                damagedWithdrawals
                        .computeIfAbsent(drive, key -> new ArrayList<>())
                        .add(rows.getString(1));
            }
            return drive;
        }

        private <T> List<T> of(String drive, Map<String, List<T>> kept) {
            if (!about.containsKey(drive)) {
                read(List.of(drive));
            }
            return kept.getOrDefault(drive, List.of());
        }

        @Override
        public List<KnownEvent> about(String drive) {
            return of(drive, about);
        }

        @Override
        public List<KnownEvent> takingBack(String drive) {
            // of a drive that is not asked about itself, there may be many records besides
            return DriveId.isLoose(drive) || about.containsKey(drive)
                    ? about(drive)
                    : list(false, "drive = ? AND kind IN ('conflict-settled', 'drive-restored')", drive);
        }

        @Override
        public List<KnownEvent> tagging(String loose) {
            return tagging.computeIfAbsent(loose, key -> list(false, "loose = ? AND drive <> ?", key, key));
        }

        @Override
        public List<String> damagedWithdrawals(String drive) {
            return of(drive, damagedWithdrawals);
        }
    }

    /** The events about a drive, with those that can be read and are not what was signed. */
    List<KnownEvent> allAbout(String drive) {
        return list(true, "drive = ?", drive);
    }

    List<KnownEvent> aboutKeys() {
        return list(false, "drive IS NULL");
    }

    private List<KnownEvent> list(boolean changedToo, String where, String... values) {
        return handle
                .sql(
                        "SELECT " + COLUMNS + " FROM event WHERE " + (changedToo ? "" : "aside = 0 AND ") + "(" + where
                                + ") ORDER BY ref",
                        (Object[]) values)
                .list(rows -> known(rows, changedToo))
                .stream()
                .flatMap(Optional::stream)
                .toList();
    }

    Optional<KnownEvent> find(String ref) {
        return handle.sql("SELECT " + COLUMNS + " FROM event WHERE aside = 0 AND ref = ?", ref)
                .first(rows -> known(rows, false))
                .flatMap(one -> one);
    }

    /** The events that entered a record, in order of name. */
    List<KnownEvent> entering(String sha256) {
        return list(false, "record_sha = ?", sha256);
    }

    byte @Nullable [] body(String sha256) {
        return handle.sql("SELECT gzip FROM record_body WHERE sha256 = ?", sha256)
                .first(rows -> rows.getBytes(1))
                .orElse(null);
    }

    /** Names of whole events after one, in order. What a name stands for is hashed, so no row of other content counts as there. */
    List<String> refs(String after, int limit) {
        List<String> refs = new ArrayList<>();
        String from = after;
        boolean more = true;
        while (more && refs.size() < limit) {
            int most = Math.min(CHUNK, limit - refs.size());
            List<Raw> rows = handle.sql(
                            "SELECT ref, body, aside FROM event WHERE aside = 0 AND ref > ? ORDER BY ref LIMIT ?",
                            from,
                            most)
                    .list(EventTable::raw);
            for (Raw row : rows) {
                if (row.whole()) {
                    refs.add(row.ref);
                } else {
                    damaged.accept(row.ref);
                }
                from = row.ref;
            }
            more = rows.size() == most;
        }
        return refs;
    }

    /** Forgets what was found out about the events: until it is found out anew nothing of it is believed. */
    void forget() {
        handle.execute("UPDATE event SET digest = NULL");
    }

    /** Names of the rows after one of which nothing is known beside the event, whatever they hold. */
    List<String> unread(String after, int limit) {
        return handle.sql("SELECT ref FROM event WHERE digest IS NULL AND ref > ? ORDER BY ref LIMIT ?", after, limit)
                .texts();
    }

    /** Number of those rows. */
    long unread() {
        return handle.sql("SELECT COUNT(*) FROM event WHERE digest IS NULL").number();
    }

    /** A row as an event with its record, unchecked; none where its text is no event. */
    Optional<Parcel> parcel(String ref) {
        return raw(ref).flatMap(row -> {
            try {
                RosterEvent event = EventJson.read(row.bytes());
                RecordRef record = event.record();
                return Optional.of(new Parcel(event, record == null ? null : body(record.sha256())));
            } catch (Problem noEvent) {
                return Optional.empty();
            }
        });
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
            drives.addAll(handle.sql(
                            "SELECT drive FROM event WHERE author = ? AND drive IS NOT NULL"
                                    + " UNION SELECT drive FROM event WHERE signer = ? AND drive IS NOT NULL",
                            key,
                            key)
                    .texts());
        }
        return drives;
    }

    /** These drives, and those to which the tags of records lead from them and back: whatever is said of one may bear on the others. */
    Set<String> kin(Collection<String> drives, KeyRing keys) {
        Set<String> kin = new HashSet<>(drives);
        Collection<String> open = drives;
        while (!open.isEmpty()) {
            List<String> led = new ArrayList<>();
            Map<Boolean, List<String>> places = open.stream().collect(Collectors.partitioningBy(DriveId::isLoose));
            places.forEach((loose, all) -> {
                for (List<String> some : together(all)) {
                    led.addAll(led(loose, some, keys));
                }
            });
            open = led.stream().filter(kin::add).toList();
        }
        return kin;
    }

    private List<String> led(boolean loose, List<String> from, KeyRing keys) {
        String led = loose
                ? "SELECT DISTINCT drive, author FROM event WHERE drive <> loose AND loose IN (?)"
                : "SELECT DISTINCT loose, author FROM event WHERE loose IS NOT NULL AND drive IN (?)";
        return handle.sql(led, from).list(row -> new String[] {row.getString(1), row.getString(2)}).stream()
                .filter(pair -> keys.status(pair[1]) != KeyRing.Status.UNKNOWN)
                .map(pair -> pair[0])
                .toList();
    }

    /** These, so many together as one statement takes and memory bears. */
    static List<List<String>> together(Collection<String> all) {
        List<String> some = List.copyOf(all);
        return IntStream.iterate(0, from -> from < some.size(), from -> from + TOGETHER)
                .mapToObj(from -> some.subList(from, Math.min(from + TOGETHER, some.size())))
                .toList();
    }

    private Optional<Raw> raw(String ref) {
        return handle.sql("SELECT ref, body, aside FROM event WHERE ref = ?", ref)
                .first(EventTable::raw);
    }

    private static Raw raw(ResultSet rows) throws SQLException {
        return new Raw(rows.getString(1), Objects.requireNonNullElse(rows.getString(2), ""), rows.getInt(3) != 0);
    }

    /** A row as it stands there. */
    private record Raw(String ref, String body, boolean aside) {

        byte[] bytes() {
            return body.getBytes(StandardCharsets.UTF_8);
        }

        boolean whole() {
            return EventName.fits(ref, bytes());
        }

        boolean is(byte[] canonical) {
            return java.util.Arrays.equals(bytes(), canonical);
        }
    }

    private Optional<KnownEvent> known(ResultSet rows, boolean changedToo) throws SQLException {
        String ref = rows.getString(1);
        byte[] body = Objects.requireNonNullElse(rows.getString(2), "").getBytes(StandardCharsets.UTF_8);
        boolean whole = EventName.fits(ref, body);
        if (!whole) {
            damaged.accept(ref);
            if (!changedToo) {
                return Optional.empty();
            }
        }
        RosterEvent event;
        try {
            event = EventJson.read(body);
        } catch (Problem noEvent) {
            damaged.accept(ref);
            return Optional.empty();
        }
        if (!whole) {
            return Optional.of(new KnownEvent(ref, event, null, false));
        }
        return Optional.of(
                Sealed.open(ref, event, rows.getString(3), rows.getInt(4) != 0).orElseGet(() -> anew(ref, event)));
    }

    /** What was found out about an event was changed in the database: it is found out again. */
    private KnownEvent anew(String ref, RosterEvent event) {
        RecordRef record = event.record();
        return Intake.outcome(new Parcel(event, record == null ? null : body(record.sha256())))
                .good()
                .map(Intake.Checked::known)
                .orElseGet(() -> new KnownEvent(ref, event, null, false));
    }
}

package tracksoak.report.roster.store;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.SessionFields;
import tracksoak.profiles.base.FieldText;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.KeyRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.RecordedSession;

/** The rows of what follows from events: states of drives, sessions of records. */
final class DriveTable {

    /** What the sum over all rows is too large by while rows are wanting. */
    private static final long WANTING = 1;

    private final Handle handle;
    private final EventTable events;
    private @Nullable Set<String> sessionsThere;

    /** All rows in one text, put together by the database: to fetch thousands of them one by one takes longer than to read them. */
    private static final String IN_ONE = "SELECT string_agg(length(id) || ':' || id"
            + " || length(CAST(version AS VARCHAR(20))) || ':' || version || state, '') FROM drive WHERE ";

    /** The same of a session, which has no version. */
    private static final String SESSIONS = "SELECT length(id) || ':' || id || '1:0' || session FROM recorded_session";

    /** Id, version, and what is kept, as three fields of a text. */
    private static String row(String id, long version, String kept) {
        return new FieldText.Writer().put(id).put(version).put(kept).text();
    }

    private static String idOf(String row) {
        return FieldText.read(row, FieldText.Reader::said);
    }

    private static String keptIn(String row) {
        return FieldText.read(row, text -> {
            text.pass(2);
            return text.said();
        });
    }

    /**
     * States with the sessions that their records were made for.
     *
     * @param whole whether all rows were as this program left them; of a part of them it is not known how they were left
     */
    record States(List<DriveState> states, List<RecordedSession> sessions, boolean whole) {

        private static final States CHANGED = new States(List.of(), List.of(), false);
    }

    DriveTable(Handle handle, EventTable events) {
        this.handle = handle;
        this.events = events;
    }

    CrewKeys keys() {
        return CrewKeys.of(events.aboutKeys());
    }

    States since(long version) {
        List<String> sessions = sessionRows();
        try {
            List<String> rows = rows(handle.sql(IN_ONE + "version > ?", version));
            if (version < 0 && sum(rows) + sum(sessions) != sum()) {
                return States.CHANGED;
            }
            List<DriveState> states = rows.parallelStream()
                    .map(row -> StateText.read(keptIn(row)))
                    .toList();
            Set<String> wanted = new HashSet<>();
            for (DriveState state : states) {
                state.marks().forEach(mark -> wanted.add(mark.sessionId()));
                if (state.lastRun() != null) {
                    wanted.add(state.lastRun().sessionId());
                }
            }
            return new States(states, among(sessions, wanted), true);
        } catch (IllegalStateException notAsWritten) {
            return States.CHANGED;
        }
    }

    /** Rows one by one; where somebody changed one so that no end of it is found, all as one that no sum fits. */
    private static List<String> rows(Handle.Statement which) {
        String all = which.first(row -> Objects.requireNonNullElse(row.getString(1), ""))
                .orElseThrow();
        try {
            return FieldText.read(all, text -> {
                List<String> rows = new ArrayList<>();
                while (!text.ended()) {
                    rows.add(text.pass(3));
                }
                return rows;
            });
        } catch (IllegalStateException cut) {
            return List.of(all);
        }
    }

    private static long sum(List<String> rows) {
        return rows.parallelStream().mapToLong(Sealed::row).sum();
    }

    private long sum() {
        return handle.sql("SELECT drives_sum FROM roster_state WHERE id = 1").number();
    }

    private List<String> sessionRows() {
        return handle.sql(SESSIONS).texts();
    }

    private static List<RecordedSession> among(List<String> sessions, Set<String> ids) {
        return sessions.stream()
                .filter(row -> ids.contains(idOf(row)))
                .map(row -> new RecordedSession(idOf(row), SessionFields.read(keptIn(row))))
                .toList();
    }

    /** Sessions of the records that hold and whose signer's key is known. */
    List<RecordedSession> goodSessions() {
        List<String> signers = keys().entries().stream()
                .filter(key -> key.revokedMs() == null)
                .map(CrewKeys.Entry::id)
                .toList();
        if (signers.isEmpty()) {
            return List.of();
        }
        // of the sessions, which are few, not of the records
        Set<String> ids = new HashSet<>(handle.sql(
                        "SELECT id FROM recorded_session WHERE EXISTS (SELECT 1 FROM event WHERE session = recorded_session.id"
                                + " AND record_holds = 1 AND aside = 0 AND signer IN (?))",
                        signers)
                .texts());
        return among(sessionRows(), ids);
    }

    void session(RecordedSession session) {
        if (sessionsThere == null) {
            sessionsThere =
                    new HashSet<>(handle.sql("SELECT id FROM recorded_session").texts());
        }
        if (sessionsThere.add(session.id())) {
            String kept = SessionFields.write(session.session());
            handle.sql("INSERT INTO recorded_session (id, session) VALUES (?, ?)", session.id(), field(kept))
                    .execute();
            sum(sum() + Sealed.row(row(session.id(), 0, kept)));
        }
    }

    private static String field(String kept) {
        return new FieldText.Writer().put(kept).text();
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
        CrewKeys book = keys();
        work(events.kin(drives, book), book, version);
    }

    private void work(Collection<String> drives, CrewKeys book, long version) {
        for (List<String> some : EventTable.together(drives)) {
            DriveFold.Source source = events.source(some);
            List<DriveState> states = some.stream()
                    .map(drive -> DriveFold.of(drive, source, book))
                    .filter(fold -> !fold.needless())
                    .map(DriveFold::state)
                    .toList();
            if (!states.isEmpty()) {
                keep(states, version);
            }
        }
    }

    private void keep(List<DriveState> states, long version) {
        long sum = sum()
                - sum(rows(handle.sql(
                        IN_ONE + "id IN (?)",
                        states.stream().map(DriveState::id).toList())));
        for (DriveState state : states) {
            String kept = StateText.write(state);
            handle.sql(
                            "INSERT INTO drive (id, version, state) VALUES (?, ?, ?) ON CONFLICT (id) DO UPDATE SET"
                                    + " version = excluded.version, state = excluded.state",
                            state.id(),
                            version,
                            field(kept))
                    .execute();
            sum += Sealed.row(row(state.id(), version, kept));
        }
        sum(sum);
    }

    /** Figures wrap around, in Java; a database would call that an error. */
    private void sum(long sum) {
        handle.sql("UPDATE roster_state SET drives_sum = ? WHERE id = 1", sum).execute();
    }

    /** Works out every drive, after {@link #clear}. */
    void workAll(long version) {
        sum(sum() - WANTING);
        CrewKeys book = keys();
        work(
                handle.sql(
                                "SELECT drive FROM event WHERE drive IS NOT NULL UNION SELECT loose FROM event"
                                        + " WHERE loose IS NOT NULL AND loose <> drive GROUP BY loose HAVING COUNT(DISTINCT drive) > 1")
                        .texts(),
                book,
                version);
    }

    /** Leaves no row, and a sum that no rows have until all are there again. */
    void clear() {
        handle.execute("DELETE FROM drive");
        handle.execute("DELETE FROM recorded_session");
        sessionsThere = null;
        sum(WANTING);
    }
}

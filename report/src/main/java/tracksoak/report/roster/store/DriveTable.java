package tracksoak.report.roster.store;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tracksoak.profiles.SessionFields;
import tracksoak.profiles.base.FieldText;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.KeyRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.RecordedSession;

/** The rows of what follows from events: states of drives, sessions of records. */
final class DriveTable {

    private final Handle handle;
    private final EventTable events;

    /** All rows in one text, put together by the database: to fetch thousands of them one by one takes longer than to read them. */
    private static final String IN_ONE = "SELECT string_agg(length(id) || ':' || id"
            + " || length(CAST(version AS VARCHAR(20))) || ':' || version || state, '') FROM drive WHERE ";

    private static final String SESSIONS = "SELECT id, session FROM recorded_session";

    /** A row; its text is one field of {@link FieldText}. */
    private record Row(String id, long version, String text) {

        static Row next(FieldText.Reader rows) {
            return new Row(rows.said(), rows.number(), rows.said());
        }

        long sum() {
            return Sealed.row(id, version, text);
        }
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
        List<Row> sessions = sessionRows();
        try {
            List<Row> rows = rows("version > ?", version);
            long sum = rows.parallelStream().mapToLong(Row::sum).sum()
                    + sessions.stream().mapToLong(Row::sum).sum();
            if (version < 0 && sum != sum()) {
                return States.CHANGED;
            }
            List<DriveState> states =
                    rows.parallelStream().map(row -> StateText.read(row.text)).toList();
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

    private List<Row> rows(String which, Object value) {
        String all = handle.sql(IN_ONE + which).bind(0, value).first(row -> row.getString(1) == null ? "" : row.getString(1)).orElse("");
        return FieldText.read(all, text -> {
            List<Row> rows = new ArrayList<>();
            while (!text.ended()) {
                rows.add(Row.next(text));
            }
            return rows;
        });
    }

    private long sum() {
        return handle.sql("SELECT drives_sum FROM roster_state WHERE id = 1").number();
    }

    private List<Row> sessionRows() {
        return handle.sql(SESSIONS).list(row -> new Row(row.getString(1), 0, row.getString(2)));
    }

    private static List<RecordedSession> among(List<Row> sessions, Set<String> ids) {
        return sessions.stream()
                .filter(row -> ids.contains(row.id))
                .map(row -> new RecordedSession(row.id, SessionFields.read(row.text)))
                .toList();
    }

    /** Sessions of the records that hold and whose signer's key is known. */
    List<RecordedSession> goodSessions() {
        CrewKeys keys = keys();
        Set<String> ids = new HashSet<>();
        handle.sql("SELECT DISTINCT session, signer FROM event"
                        + " WHERE session IS NOT NULL AND record_holds = 1 AND aside = 0")
                .list(row -> new String[] {row.getString(1), row.getString(2)})
                .forEach(pair -> {
                    if (keys.status(pair[1]) == KeyRing.Status.KNOWN) {
                        ids.add(pair[0]);
                    }
                });
        return among(sessionRows(), ids);
    }

    void session(RecordedSession session) {
        Row row = new Row(session.id(), 0, SessionFields.write(session.session()));
        int added = handle.sql("INSERT INTO recorded_session (id, session) VALUES (?, ?) ON CONFLICT DO NOTHING")
                .bind(0, row.id)
                .bind(1, row.text)
                .execute();
        if (added > 0) {
            sum(sum() + row.sum());
        }
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
        DriveFold.Source source = events.source();
        events.kin(drives, book).forEach(drive -> work(DriveFold.of(drive, source, book), version));
    }

    void work(DriveFold fold, long version) {
        if (fold.needless()) {
            return;
        }
        DriveState state = fold.state();
        Row row = new Row(state.id(), version, StateText.write(state));
        long before = rows("id = ?", row.id).stream().mapToLong(Row::sum).sum();
        handle.sql("INSERT INTO drive (id, version, state) VALUES (?, ?, ?)"
                        + " ON CONFLICT (id) DO UPDATE SET version = excluded.version, state = excluded.state")
                .bind(0, row.id)
                .bind(1, version)
                .bind(2, new FieldText.Writer().put(row.text).text())
                .execute();
        sum(sum() - before + row.sum());
    }

    /** Figures wrap around, in Java; a database would call that an error. */
    private void sum(long sum) {
        handle.sql("UPDATE roster_state SET drives_sum = ? WHERE id = 1")
                .bind(0, sum)
                .execute();
    }

    /** Works out every drive. */
    void workAll(long version) {
        CrewKeys book = keys();
        handle.sql("SELECT drive FROM event WHERE drive IS NOT NULL UNION SELECT loose FROM event"
                        + " WHERE loose IS NOT NULL AND loose <> drive GROUP BY loose HAVING COUNT(DISTINCT drive) > 1")
                .texts()
                .forEach(drive -> work(DriveFold.of(drive, events.source(), book), version));
    }

    void clear() {
        handle.execute("DELETE FROM drive");
        handle.execute("DELETE FROM recorded_session");
        handle.execute("UPDATE roster_state SET drives_sum = 0 WHERE id = 1");
    }
}

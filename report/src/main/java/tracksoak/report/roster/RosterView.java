package tracksoak.report.roster;

import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Closest;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.identity.DriveTag;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.LastRun;
import tracksoak.report.roster.standing.Mark;
import tracksoak.report.roster.standing.Question;
import tracksoak.report.roster.standing.RecordedSession;
import tracksoak.report.roster.standing.SessionStanding;
import tracksoak.report.roster.standing.TimeSpan;

/** A roster as it was at one version, in memory: a few hundred bytes a record, so that no list waits for a database. Immutable. */
final class RosterView {

    /** Where more than one drive in so many changed, the rows are worked out anew when somebody asks. */
    private static final int FEW = 4;

    final long version;
    private final Map<String, KnownDrive> drives;
    private final Map<String, RecordedSession> sessions;
    private final List<Conflict> conflicts;
    private final Map<String, List<Conflict>> conflictsOf;
    private final SortedRows sorted = new SortedRows(this);

    private RosterView(
            long version,
            Map<String, KnownDrive> drives,
            Map<String, RecordedSession> sessions,
            List<Conflict> conflicts,
            Map<String, List<Conflict>> conflictsOf) {
        this.version = version;
        this.drives = drives;
        this.sessions = sessions;
        this.conflicts = conflicts;
        this.conflictsOf = conflictsOf;
    }

    static RosterView of(long version, Collection<DriveState> states, Collection<RecordedSession> known) {
        Map<String, KnownDrive> drives = new HashMap<>(states.size() * 2);
        states.parallelStream().map(KnownDrive::new).toList().forEach(drive -> drives.put(drive.id(), drive));
        List<Conflict> conflicts = List.copyOf(Conflicts.among(drives.values()));
        return new RosterView(version, drives, byId(known), conflicts, Conflicts.byDrive(conflicts));
    }

    /**
     * The roster at a later version. Rows already in order stay so: those of the changed drives are put in at their places.
     *
     * @param states drives that changed, and new ones
     * @param made the sessions that their records were made for
     * @param now when the changed drives are asked for their standing
     */
    RosterView next(long later, Collection<DriveState> states, Collection<RecordedSession> made, Instant now) {
        Map<String, KnownDrive> all = new HashMap<>(drives);
        Set<String> changed = new HashSet<>();
        boolean tagsStay = true;
        for (DriveState state : states) {
            KnownDrive fresh = new KnownDrive(state);
            KnownDrive old = all.put(state.id(), fresh);
            changed.add(state.id());
            tagsStay &= (old == null ? List.of() : old.tags()).equals(fresh.tags());
        }
        List<Conflict> clashes = tagsStay ? conflicts : List.copyOf(Conflicts.among(all.values()));
        Map<String, List<Conflict>> clashesOf = tagsStay ? conflictsOf : Conflicts.byDrive(clashes);
        if (!tagsStay) {
            Stream.of(conflictsOf, clashesOf)
                    .flatMap(map -> map.keySet().stream())
                    .filter(id ->
                            !conflictsOf.getOrDefault(id, List.of()).equals(clashesOf.getOrDefault(id, List.of())))
                    .forEach(changed::add);
        }
        Map<String, RecordedSession> known = new HashMap<>(sessions);
        known.putAll(byId(made));
        RosterView next = new RosterView(later, all, known, clashes, clashesOf);
        if (changed.size() * FEW <= all.size()) {
            next.sorted.follow(sorted, among(drives, changed), among(all, changed), now);
        }
        return next;
    }

    private static Map<String, RecordedSession> byId(Collection<RecordedSession> known) {
        Map<String, RecordedSession> sessions = new HashMap<>();
        known.forEach(one -> sessions.put(one.id(), one));
        return sessions;
    }

    List<Conflict> ifTagged(DriveIdentity identity, String tag) {
        return Conflicts.ifTagged(drives.values(), identity, tag);
    }

    private static List<KnownDrive> among(Map<String, KnownDrive> drives, Set<String> ids) {
        return ids.stream().map(drives::get).filter(Objects::nonNull).toList();
    }

    @Nullable
    DriveState state(String id) {
        KnownDrive drive = drives.get(id);
        return drive == null ? null : drive.state();
    }

    List<DriveState> states() {
        return drives.values().stream().map(KnownDrive::state).toList();
    }

    List<RecordedSession> sessions() {
        return List.copyOf(sessions.values());
    }

    SortedRows sorted() {
        return sorted;
    }

    List<Conflict> conflicts() {
        return conflicts;
    }

    /** Every drive that is shown, with its standing, in no order. */
    List<ListedRow> rows(@Nullable Session session, Instant now) {
        return rows(drives.values(), session, now);
    }

    /** Those of these drives that are shown, with their standing. */
    List<ListedRow> rows(Collection<KnownDrive> some, @Nullable Session session, Instant now) {
        Map<String, Question> asked = new ConcurrentHashMap<>();
        Question one = session == null ? null : Question.of(session, sessions.values(), now);
        return some.parallelStream()
                .filter(drive -> !drive.moved())
                .map(drive -> new ListedRow(row(drive.state(), session, one, asked, now), drive))
                .toList();
    }

    BoardRow row(DriveState drive, @Nullable Session session, Instant now) {
        Question one = session == null ? null : Question.of(session, sessions.values(), now);
        return row(drive, session, one, new HashMap<>(), now);
    }

    private BoardRow row(
            DriveState drive,
            @Nullable Session session,
            @Nullable Question one,
            Map<String, Question> asked,
            Instant now) {
        Session of = session;
        Question question = one;
        LastRun last = drive.lastRun();
        if (question == null && last != null) {
            RecordedSession own = sessions.get(last.sessionId());
            if (own != null) {
                of = own.session();
                question = asked.computeIfAbsent(own.id(), id -> Question.of(own.session(), sessions.values(), now));
            }
        }
        SessionStanding standing = question == null ? unproven(drive) : question.ask(drive);
        String name = session != null ? session.name() : last != null ? last.session() : of == null ? "" : of.name();
        Instant believed = Instant.ofEpochMilli(drive.lastRecordMs()).minus(Question.CLOCKS_DIFFER);
        return new BoardRow(
                drive,
                standing.within(TimeSpan.beside(believed, now)),
                name,
                carried(drive, standing),
                now.isBefore(believed),
                conflictsOf.getOrDefault(drive.id(), List.of()));
    }

    /** A drive nobody made a record of can still be withdrawn. */
    private SessionStanding unproven(DriveState drive) {
        return drive.withdrawals().isEmpty()
                ? SessionStanding.unproven(
                        drive.records() == 0
                                ? "No record of it yet."
                                : (drive.records() == 1
                                                ? "Its record does not count"
                                                : "None of its " + drive.records() + " records counts")
                                        + ": not signed by a tester this roster knows, or changed since.",
                        TimeSpan.ALWAYS)
                : Question.withdrawn(drive);
    }

    private @Nullable Session carried(DriveState drive, SessionStanding standing) {
        if (standing.validUntil() == null) {
            return null;
        }
        for (Mark mark : drive.marks()) {
            if (mark.ref().equals(standing.decidedBy())) {
                RecordedSession of = sessions.get(mark.sessionId());
                return of == null ? null : of.session();
            }
        }
        return null;
    }

    /**
     * The drive a person means by its tag, its id, or the beginning of the id.
     *
     * @throws Problem if there is none, or more than one
     */
    DriveState find(String typed) {
        String text = typed.strip();
        DriveState exact = state(text.toLowerCase(Locale.ROOT));
        if (exact != null) {
            return exact;
        }
        String tag = DriveTag.from(text).orElse("");
        String start = text.toLowerCase(Locale.ROOT);
        boolean begins = start.length() >= 6;
        List<KnownDrive> found = drives.values().stream()
                .filter(drive -> (!drive.moved() && drive.tags().contains(tag))
                        || (begins && drive.id().startsWith(start)))
                .toList();
        if (found.size() == 1) {
            return found.get(0).state();
        }
        String shown = "\"" + Inert.text(typed) + "\"";
        if (found.isEmpty()) {
            throw Kind.NOT_FOUND.problem(
                    "the drive " + shown + " is not known",
                    "no tag and no id in the roster is that"
                            + Closest.hint(
                                    text,
                                    drives.values().stream()
                                            .flatMap(drive -> drive.tags().stream())
                                            .toList()),
                    "look for it in the list of all drives: tracksoak roster list");
        }
        throw Kind.ASKED_WRONG.problem(
                found.size() + " drives are called " + shown,
                "they are "
                        + String.join(
                                ", ",
                                found.stream()
                                        .map(KnownDrive::id)
                                        .sorted()
                                        .limit(5)
                                        .toList()),
                "name one by its id"
                        + (found.stream()
                                                .filter(drive -> drive.tags().contains(tag))
                                                .count()
                                        > 1
                                ? "; to settle which of them bears the tag: tracksoak roster settle " + tag + " ID WHY"
                                : ""));
    }
}

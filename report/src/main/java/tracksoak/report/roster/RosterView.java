package tracksoak.report.roster;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.Inert;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.Mark;
import tracksoak.report.roster.standing.Question;
import tracksoak.report.roster.standing.RecordDigest;
import tracksoak.report.roster.standing.SessionStanding;
import tracksoak.report.roster.standing.SessionTerms;
import tracksoak.report.roster.standing.Standing;

/** A roster as it was at one version, in memory: a few hundred bytes a record, so that no list waits for a database. Immutable. */
final class RosterView {

    final long version;
    private final Map<String, DriveState> drives;
    private final Map<String, SessionTerms> terms;
    private final List<Conflict> conflicts;
    private final Map<String, List<Conflict>> conflictsOf = new HashMap<>();
    private final SortedRows sorted = new SortedRows(this);

    RosterView(long version, Map<String, DriveState> drives, Collection<SessionTerms> known) {
        this.version = version;
        this.drives = drives;
        this.terms = new HashMap<>();
        known.forEach(one -> terms.put(one.id(), one));
        this.conflicts = List.copyOf(Conflicts.among(drives.values()));
        for (Conflict conflict : conflicts) {
            conflict.drives()
                    .forEach(id -> conflictsOf
                            .computeIfAbsent(id, key -> new ArrayList<>())
                            .add(conflict));
        }
    }

    Map<String, DriveState> drives() {
        return drives;
    }

    List<SessionTerms> sessions() {
        return List.copyOf(terms.values());
    }

    SortedRows sorted() {
        return sorted;
    }

    List<Conflict> conflicts() {
        return conflicts;
    }

    /** Every drive that is shown, with its standing, in no order. */
    List<BoardRow> rows(@Nullable Session session, Instant now) {
        Map<String, Question> asked = new HashMap<>();
        Question one = session == null ? null : Question.of(session, terms.values(), now);
        List<BoardRow> rows = new ArrayList<>(drives.size());
        for (DriveState drive : drives.values()) {
            if (!moved(drive)) {
                rows.add(row(drive, session, one, asked, now));
            }
        }
        return rows;
    }

    BoardRow row(DriveState drive, @Nullable Session session, Instant now) {
        Question one = session == null ? null : Question.of(session, terms.values(), now);
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
        RecordDigest last = drive.lastRecord();
        if (question == null && last != null) {
            SessionTerms own = terms.get(last.termsId());
            if (own != null) {
                of = own.session();
                question = asked.computeIfAbsent(own.id(), id -> Question.of(own.session(), terms.values(), now));
            }
        }
        SessionStanding standing = question == null ? unproven(drive) : question.ask(drive);
        String name = session != null ? session.name() : last != null ? last.session() : of == null ? "" : of.name();
        return new BoardRow(
                drive, standing, name, carried(drive, standing), conflictsOf.getOrDefault(drive.id(), List.of()));
    }

    /** A drive nobody made a record of can still be withdrawn. */
    private SessionStanding unproven(DriveState drive) {
        return drive.withdrawals().isEmpty()
                ? new SessionStanding(Standing.UNPROVEN, null, null, null, false, "No record of it yet.")
                : Question.withdrawn(drive);
    }

    private @Nullable Session carried(DriveState drive, SessionStanding standing) {
        if (standing.validUntil() == null) {
            return null;
        }
        for (Mark mark : drive.marks()) {
            if (mark.ref().equals(standing.decidedBy())) {
                SessionTerms of = terms.get(mark.termsId());
                return of == null ? null : of.session();
            }
        }
        return null;
    }

    /** A record that was entered again under its drive's tag is shown there. */
    private static boolean moved(DriveState drive) {
        return DriveId.isLoose(drive.id()) && !drive.tags().isEmpty();
    }

    static Map<Standing, Integer> counts(List<BoardRow> rows) {
        Map<Standing, Integer> counts = new EnumMap<>(Standing.class);
        for (Standing standing : Standing.values()) {
            counts.put(standing, 0);
        }
        rows.forEach(row -> counts.merge(row.standing().standing(), 1, Integer::sum));
        return counts;
    }

    /**
     * The drive a person means by its tag, its id, or the beginning of the id.
     *
     * @throws RosterException if there is none, or more than one
     */
    DriveState find(String typed) {
        String text = typed.strip();
        DriveState exact = drives.get(text.toLowerCase(Locale.ROOT));
        if (exact != null) {
            return exact;
        }
        String tag = text.toUpperCase(Locale.ROOT);
        List<DriveState> found = drives.values().stream()
                .filter(drive -> !moved(drive) && drive.tagNames().contains(tag))
                .toList();
        String start = text.toLowerCase(Locale.ROOT);
        if (found.isEmpty() && start.length() >= 6) {
            found = drives.values().stream()
                    .filter(drive -> drive.id().startsWith(start))
                    .toList();
        }
        if (found.size() == 1) {
            return found.get(0);
        }
        String shown = "the drive \"" + Inert.text(typed) + "\"";
        if (found.isEmpty()) {
            throw new RosterException(
                    RosterException.Kind.NOT_FOUND,
                    shown + " is not known",
                    "no tag and no id in the roster is that",
                    "list the roster to see what is");
        }
        throw new RosterException(
                RosterException.Kind.ASKED_WRONG,
                shown + " is not one drive",
                "it means "
                        + String.join(
                                ", ",
                                found.stream()
                                        .map(DriveState::id)
                                        .sorted()
                                        .limit(5)
                                        .toList()),
                "name it by its id, and settle its tag");
    }

    static boolean matches(BoardRow row, String wanted) {
        if (wanted.isBlank()) {
            return true;
        }
        String text = wanted.strip().toLowerCase(Locale.ROOT);
        DriveState drive = row.drive();
        return drive.id().contains(text)
                || drive.tagNames().stream().anyMatch(tag -> contains(tag, text))
                || contains(row.title(), text)
                || (drive.identity() != null && contains(drive.identity().serial(), text))
                || contains(drive.lastNote(), text);
    }

    private static boolean contains(@Nullable String whole, String part) {
        return whole != null
                && Objects.requireNonNull(whole).toLowerCase(Locale.ROOT).contains(part);
    }
}

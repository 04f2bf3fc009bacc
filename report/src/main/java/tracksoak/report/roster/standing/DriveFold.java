package tracksoak.report.roster.standing;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;

/**
 * Computes the state of one drive from the set of events: the order they come in, and how often each comes, play no part.
 *
 * <ul>
 *   <li>What raises trust (a PASS, a restoration, a settlement) counts only with a good signature; what lowers it (a FAIL, a
 *       withdrawal) also with that of a key revoked since, or revoking a tester would bring back what they took out.
 *   <li>Of all events that carry one record, the one with the best signature says what the record is worth; the others change
 *       nothing.
 *   <li>A drive whose serial tells nothing is named by its tag, and an event says which tag a record belongs to. So a record
 *       counts there only as far as that event's author does, and a PASS only while nobody took the tag back.
 *   <li>Withdrawals and notes of a record without a tag follow it to the tags it is given. Where a tag was taken back from a record, what was
 *       said of the drive under that tag, and its FAILs, follow the record as well, through as many settlements as there were: it
 *       may have been this drive that was meant.
 *   <li>Withdrawals and tags are taken back by name, so no clock decides whether a restoration came before or after a withdrawal. One
 *       that followed a record is lifted by what was said where it was made, or on the way.
 *   <li>The latest run, and so the session asked about by default, is that of a good signature, or where there is none of a key
 *       revoked since; notes are those of good signatures.
 * </ul>
 */
public final class DriveFold {

    private static final Comparator<KnownEvent> BY_REF = Comparator.comparing(KnownEvent::ref);
    private static final Comparator<Carried> LATEST = Comparator.<Carried>comparingInt(
                    one -> -SignatureRank.rank(one.worth))
            .thenComparingLong(one -> one.digest.endedAtMs())
            .thenComparing(one -> one.digest.sha256());

    private static final String DAMAGED = "the event that says so is damaged; a sync or an import mends it";

    private final String id;
    private final Source source;
    private final KeyRing ring;
    private final Map<String, Lifted> lifted = new HashMap<>();
    /** The drives, and records without a tag, whose events bear on this one, and where each leads; this one first. */
    private final Map<String, List<String>> trail = new LinkedHashMap<>();

    /** A record with the best signature that any event gives it. */
    private record Carried(String ref, RecordDigest digest, SignatureState worth, boolean placed) {}

    /** All events, as far as they are asked for; each once, in any order. */
    public interface Source {

        /** Those about a drive, or about a record without a tag. */
        List<KnownEvent> about(String drive);

        /** Restorations and settlements among them, and perhaps others. */
        List<KnownEvent> takingBack(String drive);

        /** Those that enter a record under a tag, see {@link RosterEvent#looseDrive}. */
        List<KnownEvent> tagging(String loose);

        /**
         * Names of withdrawals that were damaged since they were signed: they stand until a whole event or a restoration comes, or a bad
         * sector would bring a drive back.
         */
        List<String> damagedWithdrawals(String drive);
    }

    private DriveFold(String id, Source source, KeyRing ring) {
        this.id = id;
        this.source = source;
        this.ring = ring;
        Deque<String> open = new ArrayDeque<>(List.of(id));
        while (!open.isEmpty()) {
            String place = open.remove();
            if (!trail.containsKey(place)) {
                List<String> next = next(place);
                trail.put(place, next);
                open.addAll(next);
            }
        }
    }

    /**
     * What the events say of a drive.
     *
     * @param id the drive, or a record without a tag
     * @param ring the keys known
     */
    public static DriveFold of(String id, Source source, KeyRing ring) {
        return new DriveFold(id, source, ring);
    }

    /** Of events that enter one record, the one that gives it the best signature. */
    public static Optional<KnownEvent> best(Collection<KnownEvent> events, KeyRing ring) {
        return events.stream()
                .filter(known -> known.event().record() != null)
                .min(Comparator.<KnownEvent>comparingInt(known -> SignatureRank.rank(record(known, ring)))
                        .thenComparing(BY_REF));
    }

    private static SignatureState record(KnownEvent known, KeyRing ring) {
        RecordRef record = known.event().record();
        return record == null
                ? SignatureState.CHANGED
                : ring.judge(new VerifyKey(record.key()).id(), known.recordHolds());
    }

    /** From a drive to its records as they were without its tag; from such a record to the drives whose tags were taken back from it. */
    private List<String> next(String place) {
        boolean loose = DriveId.isLoose(place);
        return (loose ? tagging(place) : source.about(place).stream())
                .filter(known -> known.event().looseDrive() != null
                        && SignatureRank.cautious(author(known))
                        && takenBack(known) == loose)
                .map(known -> String.valueOf(
                        loose ? known.event().drive() : known.event().looseDrive()))
                .distinct()
                .toList();
    }

    /** What nobody unknown says of where a record belongs. */
    private Stream<KnownEvent> tagging(String loose) {
        return source.tagging(loose).stream().filter(known -> SignatureRank.cautious(author(known)));
    }

    /** Whether a tag that the event gave was taken back, there or where its record was without one. */
    private boolean takenBack(KnownEvent known) {
        String loose = known.event().looseDrive();
        return lifted(String.valueOf(known.event().drive())).tag(known.ref())
                || (loose != null && lifted(loose).tag(known.ref()));
    }

    private Lifted lifted(String place) {
        return lifted.computeIfAbsent(place, key -> Lifted.by(source.takingBack(key), ring));
    }

    /** The drives, and records without a tag, whose events bear on this one; it is the first. */
    public List<String> places() {
        return List.copyOf(trail.keySet());
    }

    /** Whether it is but another name of a record that was entered under one tag and no other: nothing was ever said of it. */
    public boolean needless() {
        return DriveId.isLoose(id)
                && source.about(id).isEmpty()
                && source.damagedWithdrawals(id).isEmpty()
                && tagging(id).map(known -> known.event().drive()).distinct().count() < 2;
    }

    /** Whether a withdrawal or a tag does not stand here any more. */
    public boolean lifted(KnownEvent known) {
        return known.event().kind() == EventKind.DRIVE_WITHDRAWN
                ? SignatureRank.cautious(author(known))
                        && !stands(String.valueOf(known.event().drive()), known.ref())
                : known.event().tag() != null && takenBack(known);
    }

    /** All that the events come to. */
    public DriveState state() {
        List<Carried> records = records(id);
        Carried last = records.stream()
                .filter(one -> SignatureRank.cautious(one.worth))
                .max(LATEST)
                .orElse(null);
        List<KnownEvent> notes = everywhere(EventKind.NOTE_WRITTEN, SignatureState.GOOD::equals);
        return new DriveState(
                id,
                identity(),
                tags().stream().map(Claim::text).distinct().sorted().toList(),
                withdrawals(),
                marks(records),
                records.size(),
                (int) records.stream()
                        .filter(one -> one.worth != SignatureState.GOOD)
                        .count(),
                (int) records.stream()
                        .filter(one -> !one.digest.doubt().isEmpty())
                        .count(),
                notes.size(),
                notes.isEmpty() ? "" : notes.get(notes.size() - 1).event().why(),
                last == null ? null : lastRun(last.digest));
    }

    private static LastRun lastRun(RecordDigest digest) {
        return new LastRun(digest.endedAtMs(), digest.outcome(), digest.sessionId(), digest.session());
    }

    private List<Claim> withdrawals() {
        Stream<Claim> whole = everywhere(EventKind.DRIVE_WITHDRAWN, SignatureRank::cautious).stream()
                .filter(known -> stands(String.valueOf(known.event().drive()), known.ref()))
                .map(known -> claim(known, known.event().why()));
        Stream<Claim> broken = trail.keySet().stream()
                .flatMap(place -> source.damagedWithdrawals(place).stream().filter(ref -> stands(place, ref)))
                .map(ref -> new Claim(ref, DAMAGED, "somebody", 0));
        return Stream.concat(whole, broken)
                .sorted(Comparator.comparing(Claim::ref))
                .toList();
    }

    /** Whether a withdrawal made in a place comes here on some way on which nobody lifted it. */
    private boolean stands(String made, String ref) {
        Deque<String> open = new ArrayDeque<>(List.of(id));
        Set<String> seen = new HashSet<>();
        while (!open.isEmpty()) {
            String place = open.remove();
            if (seen.add(place) && !lifted(place).withdrawal(ref)) {
                if (place.equals(made)) {
                    return true;
                }
                open.addAll(trail.getOrDefault(place, List.of()));
            }
        }
        return false;
    }

    /** What was said of the drive, and of its records before they had its tag, or under one that was taken back. */
    private List<KnownEvent> everywhere(EventKind kind, Predicate<SignatureState> author) {
        return trail.keySet().stream()
                .flatMap(place -> source.about(place).stream())
                .filter(known -> known.event().kind() == kind && author.test(author(known)))
                .sorted(BY_REF)
                .toList();
    }

    private @Nullable DriveIdentity identity() {
        Stream<KnownEvent> from = source.about(id).stream();
        if (DriveId.isLoose(id)) {
            // only a record's own event proves which hardware a loose record is of
            from = Stream.concat(from, tagging(id))
                    .filter(known -> id.equals(known.event().looseDrive()));
        }
        return from.filter(known -> known.event().identity() != null)
                .min(Comparator.<KnownEvent>comparingInt(known -> SignatureRank.rank(author(known)))
                        .thenComparing(BY_REF))
                .map(known -> known.event().identity())
                .orElse(null);
    }

    /** The tags that stand, one claim per event, in the order of their events. */
    public List<Claim> tags() {
        List<KnownEvent> giving = new ArrayList<>(source.about(id));
        if (DriveId.isLoose(id)) {
            // a label on a record that nobody entered under it leads nowhere
            List<KnownEvent> entered =
                    tagging(id).filter(known -> !takenBack(known)).toList();
            giving.removeIf(known -> entered.stream()
                    .noneMatch(one ->
                            Objects.equals(one.event().tag(), known.event().tag())));
            giving.addAll(entered);
        }
        return giving.stream()
                .filter(known -> known.event().tag() != null && !takenBack(known))
                .filter(known -> known.event().kind() == EventKind.CONFLICT_SETTLED
                        ? author(known) == SignatureState.GOOD
                        : SignatureRank.cautious(author(known)))
                .sorted(BY_REF)
                .map(known -> claim(known, String.valueOf(known.event().tag())))
                .toList();
    }

    private List<Carried> records(String place) {
        Map<String, Carried> best = new HashMap<>();
        for (KnownEvent known : source.about(place)) {
            RecordDigest digest = known.digest();
            RecordRef record = known.event().record();
            if (digest != null && record != null) {
                best.merge(record.sha256(), carried(known, digest, place), DriveFold::better);
            }
        }
        return List.copyOf(best.values());
    }

    private Carried carried(KnownEvent known, RecordDigest digest, String place) {
        SignatureState state = record(known, ring);
        boolean byTag = known.event().looseDrive() != null && !DriveId.isLoose(place);
        return new Carried(
                known.ref(),
                digest,
                byTag ? SignatureRank.weaker(state, author(known)) : state,
                !byTag || !takenBack(known));
    }

    private static Carried better(Carried one, Carried other) {
        int order = Integer.compare(SignatureRank.rank(one.worth), SignatureRank.rank(other.worth));
        if (order == 0) {
            order = Boolean.compare(other.placed, one.placed);
        }
        return order < 0 || (order == 0 && one.ref.compareTo(other.ref) <= 0) ? one : other;
    }

    private List<Mark> marks(List<Carried> records) {
        List<Mark> marks = new ArrayList<>();
        Map<String, Carried> away = new HashMap<>();
        trail.keySet().stream()
                .filter(place -> !place.equals(id))
                .flatMap(place -> records(place).stream())
                .filter(DriveFold::fails)
                .forEach(one -> away.merge(one.digest.sha256(), one, DriveFold::better));
        for (Carried one : records) {
            away.remove(one.digest.sha256());
            boolean pass = one.digest.outcome() == Verdict.Outcome.PASS
                    && one.digest.trusting()
                    && one.placed
                    && one.worth == SignatureState.GOOD;
            if (pass || fails(one)) {
                marks.add(mark(one, pass));
            }
        }
        away.values().forEach(one -> marks.add(mark(one, false)));
        marks.sort(Comparator.comparingLong(Mark::atMs).thenComparing(Mark::ref));
        return marks;
    }

    private static boolean fails(Carried one) {
        return one.digest.outcome() == Verdict.Outcome.FAIL && SignatureRank.cautious(one.worth);
    }

    private static Mark mark(Carried one, boolean pass) {
        RecordDigest digest = one.digest;
        return new Mark(
                pass,
                digest.endedAtMs(),
                digest.sessionId(),
                pass ? digest.wholeCapacity() : digest.everySession(),
                one.ref,
                digest.runId(),
                digest.paceMs(),
                digest.provenBytes());
    }

    private SignatureState author(KnownEvent known) {
        return ring.judge(known.event().keyId(), true);
    }

    private static Claim claim(KnownEvent known, String text) {
        return new Claim(
                known.ref(), text, known.event().by(), known.event().at().toEpochMilli());
    }
}

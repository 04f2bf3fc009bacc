package tracksoak.report.roster.standing;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
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
 *   <li>Withdrawals and notes of a record without a tag follow it to the tags it is given.
 *   <li>Withdrawals and tags are taken back by name, so no clock decides whether a restoration came before or after a withdrawal.
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
    private final KeyRing ring;
    private final List<KnownEvent> own;
    private final List<KnownEvent> besides;
    private final Lifted lifted;

    /** A record with the best signature that any event gives it. */
    private record Carried(String ref, RecordDigest digest, SignatureState worth, boolean placed) {}

    private DriveFold(String id, KeyRing ring, List<KnownEvent> own, List<KnownEvent> besides) {
        this.id = id;
        this.ring = ring;
        this.own = own;
        this.besides = besides;
        List<KnownEvent> all = new ArrayList<>(own);
        all.addAll(besides);
        this.lifted = Lifted.by(all, ring);
    }

    /**
     * The state of a drive.
     *
     * @param id the drive
     * @param events all events that are about it, and about the loose records that its tag was given to (see {@link
     *     RosterEvent#looseDrive}), in any order; others are passed over
     * @param ring the keys known
     */
    public static DriveState fold(String id, Collection<KnownEvent> events, KeyRing ring) {
        return folded(id, events, ring).state(List.of());
    }

    /**
     * The same where withdrawals were damaged since they were signed: they stand until a whole event or a restoration comes, or a bad sector
     * would bring a drive back.
     *
     * @param damaged names of these
     */
    public static DriveState fold(String id, Collection<KnownEvent> events, KeyRing ring, Collection<String> damaged) {
        return folded(id, events, ring).state(damaged);
    }

    /** The tags given to a drive that stand, one claim per event, in the order of their events; parameters as for {@link #fold}. */
    public static List<Claim> tagClaims(String id, Collection<KnownEvent> events, KeyRing ring) {
        return folded(id, events, ring).tags();
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

    private static DriveFold folded(String id, Collection<KnownEvent> events, KeyRing ring) {
        List<KnownEvent> own = sorted(events, known -> id.equals(known.event().drive()));
        List<KnownEvent> besides;
        if (DriveId.isLoose(id)) {
            List<KnownEvent> entered = sorted(
                    events,
                    known -> id.equals(known.event().looseDrive())
                            && !id.equals(known.event().drive()));
            Set<String> tagged = entered.stream()
                    .map(known -> String.valueOf(known.event().drive()))
                    .collect(Collectors.toSet());
            besides = new ArrayList<>(entered);
            besides.addAll(sorted(
                    events,
                    known -> takesBack(known)
                            && tagged.contains(String.valueOf(known.event().drive()))));
        } else {
            Set<String> loose = own.stream()
                    .map(known -> known.event().looseDrive())
                    .filter(Objects::nonNull)
                    .collect(Collectors.toSet());
            besides = loose.isEmpty()
                    ? List.of()
                    : sorted(
                            events,
                            known -> loose.contains(String.valueOf(known.event().drive())));
        }
        return new DriveFold(id, ring, own, besides);
    }

    private static List<KnownEvent> sorted(Collection<KnownEvent> events, Predicate<KnownEvent> wanted) {
        return events.stream()
                .filter(wanted)
                .collect(Collectors.toMap(KnownEvent::ref, known -> known, (one, same) -> one, LinkedHashMap::new))
                .values()
                .stream()
                .sorted(BY_REF)
                .toList();
    }

    private static boolean takesBack(KnownEvent known) {
        return known.event().kind() == EventKind.DRIVE_RESTORED || known.event().kind() == EventKind.CONFLICT_SETTLED;
    }

    private DriveState state(Collection<String> damaged) {
        List<Carried> records = records();
        Carried last = records.stream()
                .filter(one -> SignatureRank.cautious(one.worth))
                .max(LATEST)
                .orElse(null);
        List<KnownEvent> notes = about(EventKind.NOTE_WRITTEN, SignatureState.GOOD::equals);
        return new DriveState(
                id,
                identity(),
                tags().stream().map(Claim::text).distinct().sorted().toList(),
                withdrawals(damaged),
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
                last == null ? 0 : last.digest.endedAtMs(),
                last == null ? null : last.digest);
    }

    private List<Claim> withdrawals(Collection<String> damaged) {
        Stream<Claim> whole = about(EventKind.DRIVE_WITHDRAWN, SignatureRank::cautious).stream()
                .map(known -> claim(known, known.event().why()));
        Stream<Claim> broken = damaged.stream().map(ref -> new Claim(ref, DAMAGED, "somebody", 0));
        return Stream.concat(whole, broken)
                .filter(claim -> !lifted.withdrawal(claim.ref()))
                .sorted(Comparator.comparing(Claim::ref))
                .toList();
    }

    /** What was said of the drive, and of records before they had its tag. */
    private List<KnownEvent> about(EventKind kind, Predicate<SignatureState> author) {
        Set<String> followed = DriveId.isLoose(id)
                ? Set.of()
                : own.stream()
                        .filter(known -> known.event().looseDrive() != null
                                && SignatureRank.cautious(author(known.event()))
                                && !lifted.tag(known.ref()))
                        .map(known -> String.valueOf(known.event().looseDrive()))
                        .collect(Collectors.toSet());
        List<KnownEvent> all = new ArrayList<>(own);
        besides.stream()
                .filter(known -> followed.contains(String.valueOf(known.event().drive())))
                .forEach(all::add);
        return all.stream()
                .filter(known -> known.event().kind() == kind && author.test(author(known.event())))
                .sorted(BY_REF)
                .toList();
    }

    private @Nullable DriveIdentity identity() {
        List<KnownEvent> from = new ArrayList<>(own);
        if (DriveId.isLoose(id)) {
            // only a record's own event proves which hardware a loose record is of
            from.addAll(besides);
            from.removeIf(known -> !id.equals(known.event().looseDrive()));
        }
        return from.stream()
                .filter(known -> known.event().identity() != null)
                .min(Comparator.<KnownEvent>comparingInt(known -> SignatureRank.rank(author(known.event())))
                        .thenComparing(BY_REF))
                .map(known -> known.event().identity())
                .orElse(null);
    }

    private List<Claim> tags() {
        List<KnownEvent> giving = new ArrayList<>(own);
        if (DriveId.isLoose(id)) {
            besides.stream()
                    .filter(known -> id.equals(known.event().looseDrive()))
                    .forEach(giving::add);
        }
        return giving.stream()
                .filter(known -> known.event().tag() != null && !lifted.tag(known.ref()))
                .filter(known -> known.event().kind() == EventKind.CONFLICT_SETTLED
                        ? author(known.event()) == SignatureState.GOOD
                        : SignatureRank.cautious(author(known.event())))
                .sorted(BY_REF)
                .map(known -> claim(known, String.valueOf(known.event().tag())))
                .toList();
    }

    private List<Carried> records() {
        Map<String, Carried> best = new HashMap<>();
        for (KnownEvent known : own) {
            RecordDigest digest = known.digest();
            RecordRef record = known.event().record();
            if (digest != null && record != null) {
                Carried one = carried(known, digest);
                best.merge(record.sha256(), one, DriveFold::better);
            }
        }
        return List.copyOf(best.values());
    }

    private Carried carried(KnownEvent known, RecordDigest digest) {
        SignatureState state = record(known, ring);
        boolean byTag = known.event().looseDrive() != null && !DriveId.isLoose(id);
        return new Carried(
                known.ref(),
                digest,
                byTag ? SignatureRank.weaker(state, author(known.event())) : state,
                !byTag || !lifted.tag(known.ref()));
    }

    private static Carried better(Carried one, Carried other) {
        int order = Integer.compare(SignatureRank.rank(one.worth), SignatureRank.rank(other.worth));
        if (order == 0) {
            order = Boolean.compare(other.placed, one.placed);
        }
        return order < 0 || (order == 0 && one.ref.compareTo(other.ref) <= 0) ? one : other;
    }

    private static List<Mark> marks(List<Carried> records) {
        List<Mark> marks = new ArrayList<>();
        for (Carried one : records) {
            RecordDigest digest = one.digest;
            boolean pass = digest.outcome() == Verdict.Outcome.PASS
                    && digest.trusting()
                    && one.placed
                    && one.worth == SignatureState.GOOD;
            boolean fail = digest.outcome() == Verdict.Outcome.FAIL && SignatureRank.cautious(one.worth);
            if (pass || fail) {
                boolean all = pass ? digest.wholeCapacity() : digest.everySession();
                marks.add(new Mark(
                        pass,
                        digest.endedAtMs(),
                        digest.sessionId(),
                        all,
                        one.ref,
                        digest.runId(),
                        digest.paceMs(),
                        digest.provenBytes()));
            }
        }
        marks.sort(Comparator.comparingLong(Mark::atMs).thenComparing(Mark::ref));
        return marks;
    }

    private SignatureState author(RosterEvent event) {
        return ring.judge(event.keyId(), true);
    }

    private static Claim claim(KnownEvent known, String text) {
        return new Claim(
                known.ref(), text, known.event().by(), known.event().at().toEpochMilli());
    }
}

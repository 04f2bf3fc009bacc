package tracksoak.report.roster.standing;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveIdentity;

/**
 * Computes the state of one drive from the set of its events: the order they come in, and how often each comes, play no part. What raises
 * trust (a PASS, a restoration, a settlement) counts only with a good signature; what lowers it (a FAIL, a withdrawal) also with that of a
 * key revoked since, or revoking a tester would bring back what they took out. Withdrawals and tags are taken back by name, so
 * no clock decides whether a restoration came before or after a withdrawal.
 */
public final class DriveFold {

    private static final Comparator<KnownEvent> BY_REF = Comparator.comparing(KnownEvent::ref);

    private final KeyRing ring;
    private final Set<String> lifted = new HashSet<>();
    private final Set<String> seen = new HashSet<>();
    private final List<Claim> tags = new ArrayList<>();
    private final List<Claim> withdrawals = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private @Nullable DriveIdentity identity;
    private @Nullable RecordDigest last;
    private int unsigned;
    private int doubtful;
    private int notes;
    private String lastNote = "";

    private DriveFold(KeyRing ring) {
        this.ring = ring;
    }

    /**
     * The state of a drive.
     *
     * @param id the drive
     * @param events its events, in any order; those of other drives are passed over
     * @param ring the keys known
     */
    public static DriveState fold(String id, Collection<KnownEvent> events, KeyRing ring) {
        return folded(id, events, ring).state(id);
    }

    /** The tags given to a drive that stand, one claim per event, in the order of their events; parameters as for {@link #fold}. */
    public static List<Claim> tagClaims(String id, Collection<KnownEvent> events, KeyRing ring) {
        return List.copyOf(folded(id, events, ring).tags);
    }

    private static DriveFold folded(String id, Collection<KnownEvent> events, KeyRing ring) {
        List<KnownEvent> own = events.stream()
                .filter(known -> id.equals(known.event().drive()))
                .sorted(BY_REF)
                .toList();
        DriveFold fold = new DriveFold(ring);
        own.forEach(fold::lifts);
        String previous = "";
        for (KnownEvent known : own) {
            if (!known.ref().equals(previous)) {
                fold.add(known);
            }
            previous = known.ref();
        }
        fold.marks.sort(Comparator.comparingLong(Mark::atMs).thenComparing(Mark::ref));
        return fold;
    }

    private DriveState state(String id) {
        return new DriveState(
                id,
                identity,
                tags.stream().map(Claim::text).distinct().sorted().toList(),
                withdrawals,
                marks,
                seen.size(),
                unsigned,
                doubtful,
                notes,
                lastNote,
                last == null ? 0 : last.endedAtMs(),
                last);
    }

    private void lifts(KnownEvent known) {
        boolean lifts = known.event().kind() == EventKind.DRIVE_RESTORED
                || known.event().kind() == EventKind.CONFLICT_SETTLED;
        if (lifts && author(known.event()) == SignatureState.GOOD) {
            lifted.addAll(known.event().lifts());
        }
    }

    private void add(KnownEvent known) {
        RosterEvent event = known.event();
        SignatureState author = author(event);
        boolean cautious = author == SignatureState.GOOD || author == SignatureState.REVOKED;
        if (event.identity() != null && identity == null) {
            identity = event.identity();
        }
        switch (event.kind()) {
            case RECORD_ENTERED -> record(known);
            case DRIVE_WITHDRAWN -> {
                if (cautious && !lifted.contains(known.ref())) {
                    withdrawals.add(claim(known, event.why()));
                }
            }
            case NOTE_WRITTEN -> {
                notes++;
                lastNote = event.why();
            }
            default -> {}
        }
        String tag = event.tag();
        boolean kept = event.kind() != EventKind.CONFLICT_SETTLED || author == SignatureState.GOOD;
        if (tag != null && cautious && kept && !lifted.contains(known.ref())) {
            tags.add(claim(known, tag));
        }
    }

    private void record(KnownEvent known) {
        RecordDigest digest = known.digest();
        RecordRef record = known.event().record();
        if (digest == null || record == null || !seen.add(record.sha256())) {
            return;
        }
        if (last == null || digest.endedAtMs() >= last.endedAtMs()) {
            last = digest;
        }
        SignatureState state = ring.judge(new VerifyKey(record.key()).id(), known.recordHolds());
        unsigned += state == SignatureState.GOOD ? 0 : 1;
        doubtful += digest.doubt().isEmpty() ? 0 : 1;
        boolean pass = digest.outcome() == Verdict.Outcome.PASS && digest.trusting() && state == SignatureState.GOOD;
        boolean fail = digest.outcome() == Verdict.Outcome.FAIL
                && (state == SignatureState.GOOD || state == SignatureState.REVOKED);
        if (pass || fail) {
            boolean all = pass ? digest.wholeCapacity() : digest.everySession();
            marks.add(new Mark(pass, digest.endedAtMs(), digest.termsId(), all, known.ref()));
        }
    }

    private SignatureState author(RosterEvent event) {
        return ring.judge(event.keyId(), true);
    }

    private static Claim claim(KnownEvent known, String text) {
        return new Claim(
                known.ref(), text, known.event().by(), known.event().at().toEpochMilli());
    }
}

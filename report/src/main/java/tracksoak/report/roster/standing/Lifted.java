package tracksoak.report.roster.standing;

import java.util.Collection;
import java.util.HashSet;
import java.util.Set;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.EventName;

/**
 * What was taken back: withdrawals by restorations alone, tags by settlements alone, whatever else such an event names; and only by
 * authors whose keys are good. Immutable.
 */
final class Lifted {

    private final Set<String> withdrawals = new HashSet<>();
    private final Set<String> tags = new HashSet<>();

    private Lifted() {}

    /** What these events take back. */
    static Lifted by(Collection<KnownEvent> events, KeyRing ring) {
        Lifted lifted = new Lifted();
        for (KnownEvent known : events) {
            EventKind kind = known.event().kind();
            boolean lifts = kind == EventKind.DRIVE_RESTORED || kind == EventKind.CONFLICT_SETTLED;
            if (lifts && ring.judge(known.event().keyId(), true) == SignatureState.GOOD) {
                Set<String> names = kind == EventKind.DRIVE_RESTORED ? lifted.withdrawals : lifted.tags;
                names.addAll(known.event().lifts());
            }
        }
        return lifted;
    }

    /** Whether a withdrawal was lifted. */
    boolean withdrawal(String ref) {
        return named(withdrawals, ref);
    }

    /** Whether a tag that an event gave was taken back. */
    boolean tag(String ref) {
        return named(tags, ref);
    }

    private static boolean named(Set<String> names, String ref) {
        return names.contains(ref) || names.contains(EventName.old(ref));
    }
}

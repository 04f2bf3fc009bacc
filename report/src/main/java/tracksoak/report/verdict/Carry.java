package tracksoak.report.verdict;

import tracksoak.profiles.Session;
import tracksoak.profiles.SessionOrder;

/**
 * What a run made for one session can say of another. Lengths, margins, buffers and file systems are left out: they are
 * judged from the facts as they are. A session with some streams of another taken away, the rest alike, is the easier of
 * the two: what the harder one passed the easier passes, what the easier missed the harder misses.
 */
enum Carry {
    /** The same streams, written the same way. */
    SAME,
    /** The session judged asks less than the run did: passes carry over, misses do not. */
    EASIER,
    /** The session judged asks more than the run did: misses carry over, passes do not. */
    HARDER,
    /** Neither can be said. */
    OTHER;

    boolean passes() {
        return this == SAME || this == EASIER;
    }

    boolean misses() {
        return this == SAME || this == HARDER;
    }

    static Carry of(Session run, Session judged) {
        boolean easier = SessionOrder.otherWriting(run, judged).isEmpty();
        boolean harder = SessionOrder.otherWriting(judged, run).isEmpty();
        return easier ? (harder ? SAME : EASIER) : (harder ? HARDER : OTHER);
    }
}

package tracksoak.bench.phase.run;

import java.util.List;
import java.util.function.DoublePredicate;
import java.util.function.Supplier;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.verdict.ShowOdds;
import tracksoak.report.verdict.Threat;
import tracksoak.report.verdict.Threats;

/**
 * How long a drive rests before a take, and how long the take goes on: for its usual length; then until what the drive showed
 * flat out is settled and the odds for the show are told, or a criterion is missed and nothing more can be learnt; never
 * beyond its longest. One thread.
 */
final class TakeGoal {

    /** The odds are asked again after so much more of the take. */
    private static final double NEXT_LOOK = 1.2;

    /** A wait that takes so much of what the buffer holds beside a chunk asks for the odds, or the session's whole length. */
    private static final double HIGH = 0.2;

    private static final double STEP_S = 1;
    private static final double NARROW = 0.98;

    private final Session session;
    private final double leastS;
    private double mostS;
    private double wantedS;
    private double nextS;
    private double nextOddsS;
    private boolean decided;

    TakeGoal(Session session, double leastS, double mostS) {
        this.session = session;
        this.leastS = leastS;
        this.mostS = Math.max(leastS, mostS);
        this.wantedS = leastS;
    }

    /** Whether it has one length and no other. */
    boolean fixed() {
        return mostS <= leastS;
    }

    /** Its longest length in s, drawn in until it fits. */
    double within(DoublePredicate fits) {
        while (mostS > leastS && !fits.test(mostS)) {
            mostS = Math.max(leastS, mostS * NARROW);
        }
        return mostS;
    }

    /** How long the drive is left alone before it in s, {@code usualS} if nothing asks for more. */
    double restS(List<PhaseFacts> before, double usualS) {
        boolean worn = Threats.of(session, before).stream().anyMatch(threat -> threat.kind() == Threat.Kind.SLOW)
                || Threats.leftSlow(session, before);
        boolean mayRest = !fixed() || (leastS >= session.lengthS() && usualS >= Plan.USUAL_IDLE_S);
        return worn && mayRest && !Threats.decided(session, before) ? Math.max(Plan.LONG_IDLE_S, usualS) : usualS;
    }

    /** It begins after these phases. */
    void begin(List<PhaseFacts> before) {
        List<Threat> threats = Threats.of(session, before);
        decided = Threats.decided(session, before);
        wantedS = decided ? leastS : Math.min(mostS, Math.max(leastS, Threats.settledAfterS(session, threats)));
        nextS = leastS;
        nextOddsS = wantedS;
    }

    /** Length it will have in s by what is known now. */
    double expectedS() {
        return wantedS;
    }

    /** Whether {@link #reached} has anything to say {@code elapsedS} after its start. */
    boolean isDue(double elapsedS) {
        return !fixed() && elapsedS >= nextS;
    }

    /**
     * Whether it may end now.
     *
     * @param soFar the facts of the take until now
     */
    boolean reached(double elapsedS, RecorderLedger.Glance glance, Supplier<PhaseFacts> soFar) {
        nextS = elapsedS + STEP_S;
        boolean missed =
                glance.worstLostMs() > 0 || glance.peakMs() * session.margins().buffer() > session.bufferS() * 1000;
        if (missed || decided) {
            return true;
        }
        if (elapsedS < nextOddsS) {
            return false;
        }
        double spareMs = session.bufferS() * 1000 - session.longestChunkMs();
        boolean high = glance.peakMs() - session.longestChunkMs() > HIGH * spareMs;
        if (ShowOdds.told(session, soFar.get(), high)) {
            return true;
        }
        nextOddsS = Math.min(mostS, elapsedS * NEXT_LOOK);
        wantedS = nextOddsS;
        return false;
    }
}

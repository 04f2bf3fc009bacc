package tracksoak.bench.phase;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.Session;
import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.PhaseKind;

/**
 * Where a run is within its plan and what is still ahead. What a fill and a read-back will take is reckoned from the rate
 * at which the drive has worked so far; before anything was measured it is unknown. One thread.
 */
final class Steps {

    /** A close takes about this long, in s; only for the time left that is shown. */
    private static final double USUAL_CLOSE_S = 2;

    private static final double UNKNOWN = -1;

    private record Step(PhaseKind kind, double seconds) {}

    private final List<Step> all = new ArrayList<>();
    private final Budget budget;
    private final double demand;
    private final double leastFillS;
    private int at = -1;
    private long writtenBytes;
    private double rate;

    Steps(Plan plan, Budget budget, Session session) {
        this.budget = budget;
        this.demand = session.bytesPerSecond();
        this.leastFillS = Math.min(plan.fillCapS(), 5 * plan.roundS());
        if (plan.takeBeforeS() > 0) {
            addTake(plan.takeBeforeS());
        }
        if (plan.fillCapS() > 0) {
            all.add(new Step(PhaseKind.FILL, plan.fillCapS()));
        }
        addTake(plan.takeAfterS());
        all.add(new Step(PhaseKind.READ_BACK, 0));
    }

    private void addTake(double seconds) {
        all.add(new Step(PhaseKind.TAKE, seconds));
        all.add(new Step(PhaseKind.CLOSE, USUAL_CLOSE_S));
    }

    /** The next step begins. */
    void next() {
        at++;
    }

    /** A phase has ended: what it wrote, and how fast the drive was at it, tells how long others will take. */
    void learn(PhaseFacts facts) {
        double busyS = facts.seconds() * facts.busyFraction();
        if (facts.kind() == PhaseKind.TAKE || facts.kind() == PhaseKind.FILL) {
            writtenBytes += facts.bytes();
            rate = busyS > 0 ? facts.bytes() / busyS : rate;
        }
    }

    /** What to show. */
    Progress progress(Session session, Bench.Now now, double bytesPerSecond) {
        return new Progress(
                all.get(at).kind(),
                at + 1,
                all.size(),
                now.elapsedS(),
                leftS(now),
                now.leftS(),
                session.tracks(),
                session.tracks() - now.hit(),
                now.backlogMs(),
                now.worstBacklogMs(),
                session.bufferS() * 1e3,
                now.worstServiceMs(),
                now.lostMs(),
                now.bytes(),
                bytesPerSecond);
    }

    private double leftS(Bench.Now now) {
        double left = now.leftS();
        double ahead = writtenBytes + now.bytes();
        for (int i = at + 1; i < all.size() && left >= 0; i++) {
            Step step = all.get(i);
            double seconds = switch (step.kind()) {
                case TAKE, CLOSE, PLAYBACK -> step.seconds();
                case FILL, COPY ->
                    rate <= 0
                            ? UNKNOWN
                            : Math.min(step.seconds(), Math.max(leastFillS, budget.fillWantedBytes() / rate));
                case READ_BACK, KEEPSAKE -> rate <= 0 ? UNKNOWN : ahead / rate;
            };
            ahead += step.kind() == PhaseKind.TAKE ? seconds * demand : 0;
            ahead += step.kind() == PhaseKind.FILL ? seconds * rate : 0;
            left = seconds < 0 ? UNKNOWN : left + seconds;
        }
        return left;
    }
}

package tracksoak.bench.job;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.drill.DrillRequest;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.DriveFacts;

/**
 * When the drive of a drill is pulled.
 *
 * @param pullAfterS into the take that is cut off, in s
 * @param waitS it must be back within this time, in s
 */
public record DrillTerms(double pullAfterS, double waitS) {

    private static final double STOPPED_S = 5;
    private static final double LEAST_BEFORE_PULL_S = 12;
    private static final double PULL_LIMIT_S = 120;

    /**
     * Terms for a session.
     *
     * @param afterS something else pulls the drive so long into the take, in s; null where a person is asked to, which is
     *     not before the files have been flushed
     */
    public static DrillTerms of(Session session, @Nullable Double afterS, double waitS) {
        return new DrillTerms(afterS != null ? afterS : Math.max(LEAST_BEFORE_PULL_S, 1.5 * session.flushS()), waitS);
    }

    /** What is written at most. */
    public Plan plan() {
        return DrillRequest.plan(STOPPED_S, pullAfterS, PULL_LIMIT_S);
    }

    DrillRequest request(Order order, DriveFacts facts) {
        return new DrillRequest(
                order.id().toString(),
                Version.tool(),
                order.session(),
                order.payloadSeed(),
                order.hangLimitS(),
                order.reserve(facts),
                STOPPED_S,
                pullAfterS,
                PULL_LIMIT_S,
                waitS);
    }
}

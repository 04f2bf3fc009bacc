package tracksoak.bench.job;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.drill.DrillRequest;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
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
     * @throws Problem if it records nothing
     */
    public static DrillTerms of(Session session, @Nullable Double afterS, double waitS) {
        if (session.kind() == SessionKind.PLAYBACK) {
            throw Problem.askedWrong(
                    "the session " + Inert.quoted(session.name())
                            + " records nothing, and a drill shows what a recording loses",
                    "choose a session that records: tracksoak sessions");
        }
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

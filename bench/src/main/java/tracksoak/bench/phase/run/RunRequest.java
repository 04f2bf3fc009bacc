package tracksoak.bench.phase.run;

import tracksoak.profiles.Session;

/**
 * What is asked of a run.
 *
 * @param runId UUIDv7 of the run
 * @param tool name and version of the bench
 * @param session what will be recorded
 * @param plan what to do; made to fit the kind of session
 * @param seed seed of the payload
 * @param hangLimitS a call that has not come back after this long is given up, in s
 * @param reserveBytes room that stays free on the drive
 * @param extras what the record says besides
 */
public record RunRequest(
        String runId,
        String tool,
        Session session,
        Plan plan,
        long seed,
        double hangLimitS,
        long reserveBytes,
        RunExtras extras) {

    public RunRequest {
        plan = plan.fitting(session);
    }

    /** Nothing besides. */
    public RunRequest(
            String runId, String tool, Session session, Plan plan, long seed, double hangLimitS, long reserveBytes) {
        this(runId, tool, session, plan, seed, hangLimitS, reserveBytes, RunExtras.NOTHING);
    }
}

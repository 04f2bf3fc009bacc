package tracksoak.bench.phase.drill;

import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;

/**
 * What is asked of an unplug drill.
 *
 * @param runId UUIDv7 of the drill
 * @param tool name and version of the bench
 * @param session what is recorded
 * @param seed seed of the payload
 * @param hangLimitS a call that has not come back after this long is given up, in s
 * @param reserveBytes room that stays free on the drive
 * @param stoppedS length of the take that is stopped and closed first, in s
 * @param pullAfterS into the second take the drive is to be pulled, in s
 * @param pullLimitS after that nobody is expected to pull it any more, in s
 * @param waitS the drive must be back within this time, in s
 */
public record DrillRequest(
        String runId,
        String tool,
        Session session,
        long seed,
        double hangLimitS,
        long reserveBytes,
        double stoppedS,
        double pullAfterS,
        double pullLimitS,
        double waitS) {

    /** Both takes, as a plan: what is written at most. */
    public static Plan plan(double stoppedS, double pullAfterS, double pullLimitS) {
        return Plan.lineCheck().withDurations(stoppedS, null, pullAfterS + pullLimitS);
    }
}

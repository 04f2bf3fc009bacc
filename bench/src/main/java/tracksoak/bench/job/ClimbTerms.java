package tracksoak.bench.job;

import tracksoak.bench.climb.Ladder;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;

/**
 * What a climb looks for, and for how long.
 *
 * @param base the session as it was asked for
 * @param ladder the sessions to climb through, as far as the drive has room for them
 * @param shortTakeS length of a short take in s
 * @param fillCapS longest time of the fill before the takes in s
 * @param check the plan of the sound-checks
 * @param askLoss whether to look for the edge of losses too
 * @param proveAbove whether a check must show that the rung above does not hold; always done on simulated drives
 */
public record ClimbTerms(
        Session base,
        Ladder ladder,
        double shortTakeS,
        double fillCapS,
        Plan check,
        boolean askLoss,
        boolean proveAbove) {}

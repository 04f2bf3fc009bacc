package tracksoak.bench.climb;

import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;

/**
 * What is asked of a climb, all checked.
 *
 * @param id UUIDv7 of the climb
 * @param tool name and version of the bench
 * @param seed seed of the payload
 * @param base the session as it was asked for; the fill is made with its lowest rung at or above it
 * @param ladder the sessions climbed through
 * @param mostBecause why the ladder ends where it does, one sentence
 * @param shortTakeS length of a short take in s
 * @param fillCapS longest time of the fill before the takes in s
 * @param check the plan of the sound-checks
 * @param askLoss whether to look for the edge of losses too
 * @param proveAbove whether a check must show that the rung above does not hold
 * @param drive the drive
 * @param host this computer
 */
public record ClimbOrder(
        String id,
        String tool,
        long seed,
        Session base,
        Ladder ladder,
        String mostBecause,
        double shortTakeS,
        double fillCapS,
        Plan check,
        boolean askLoss,
        boolean proveAbove,
        DriveFacts drive,
        HostFacts host) {

    /** A short take is no shorter than this in the full climb, in s. */
    public static final double SHORT_TAKE_S = 60;

    /** Longest time of the fill before the takes in the full climb, in s. */
    public static final double FILL_CAP_S = 1200;

    /** Whether any time is below the climb's own. */
    public boolean shortened() {
        return shortTakeS < SHORT_TAKE_S || fillCapS < FILL_CAP_S || check.shortened();
    }

    /** The session the fill is made with: the one asked for, or the highest rung where that is beyond it. */
    Session fillSession() {
        return ladder.session(ladder.within((double) base.bytesPerSecond()));
    }

    ClimbRecord.Ladder ladderFacts() {
        return new ClimbRecord.Ladder(
                switch (ladder.kind()) {
                    case TRACKS -> ClimbRecord.Grows.TRACKS;
                    case SAMPLE_RATE -> ClimbRecord.Grows.SAMPLE_RATE;
                },
                ladder.value(1),
                ladder.value(ladder.size()),
                mostBecause);
    }

    ClimbRecord.Plan planFacts() {
        return new ClimbRecord.Plan(
                shortTakeS,
                fillCapS,
                new ClimbRecord.Check(check.takeBeforeS(), check.fillCapS(), check.takeAfterS()),
                shortened(),
                proveAbove,
                askLoss);
    }
}

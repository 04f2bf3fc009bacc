package tracksoak.bench.worth;

import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;

/**
 * A drive that is to be trusted with a session, or not.
 *
 * @param seed what both were made from
 * @param trouble what is the matter with the drive, for the breakdown
 */
record Candidate(long seed, String trouble, Session session, DriveModel drive) {

    /** Keeps the chances of the shows apart from those of the run. */
    private static final long OTHER_CHANCES = 1_000_000_007L;

    /** The same kind of drive with other chances. */
    DriveModel sibling(int show) {
        return drive.withSeed(drive.seed() + OTHER_CHANCES * (show + 1));
    }
}

package tracksoak.bench.climb;

import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.RunRecord;

/** Where a climb makes its runs. Called by one thread, one run at a time. */
public interface ClimbRunner {

    /** What a run is for. */
    enum Purpose {
        /** Brings the drive to steady state; what it wrote stays until the first check. */
        FILL,
        /** A short take on the filled drive; what it wrote is deleted after it. */
        TAKE,
        /** A sound-check; what it wrote, and the fill, are gone before the next. */
        CHECK
    }

    /**
     * Makes one run and returns its judged record.
     *
     * @param value tracks or Hz, to name what is kept of a check
     */
    RunRecord run(Purpose purpose, int value, Session session, Plan plan);

    /** Whether every check has a new drive, as simulated ones do. */
    boolean renews();
}

package tracksoak.bench.job;

import java.nio.file.Path;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.drill.DrillListener;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Traffic;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RunRecord;

/**
 * Hears the news of a job, whoever asked for it. Called by the job's own thread; must not block for long. What a listener
 * does not care for it need not hear; notes and troubles are for everyone.
 */
public interface JobListener {

    /** One sentence worth knowing, without a full stop. Nothing needs to be done about it. */
    void note(String sentence);

    /**
     * What earlier runs left lies where the next is to write.
     *
     * @param found what there is, without a full stop
     * @param cleared how it is deleted
     */
    default void leftOvers(String found, String cleared) {
        note(found + "; " + cleared);
    }

    /** Something that did not work and does not end the job. */
    void trouble(Problem problem);

    /** A step of a run is about to begin; it begins when this returns, which may take as long as it likes. */
    default void before(Traffic traffic) {}

    /** How far a run or drill is; about five times a second. */
    default void progress(Progress progress) {}

    /** A run or drill is over: nothing more comes of its progress. */
    default void idle() {}

    /** A thread hangs in the drive and never comes back; whoever ends the process must not wait for it. */
    default void driveHangs() {}

    /**
     * A drive may be plugged in now.
     *
     * @param place where it is to be mounted, null for wherever the next one is
     */
    default void waitsForDrive(@Nullable Path place) {}

    /** The drive that was waited for is there. */
    default void driveMounted(Path place) {}

    /** An earlier run is done again. */
    default void repeats(RunRecord last, Plan plan, Session session) {}

    /**
     * A keepsake lies on the drive now.
     *
     * @param askedBytes what was to be left; the run may have written less
     */
    default void keepsakeLeft(Path folder, long bytes, int files, long askedBytes) {}

    /**
     * The run is in the roster.
     *
     * @param drive id of the drive there
     * @param label what the crew calls it
     */
    default void entered(String drive, String label) {}

    /**
     * The roster has two tags for the drive, or one tag for two drives.
     *
     * @param cost what comes of it until then
     * @param todo the commands that settle it, given how the roster was named on the command line
     */
    default void tagToSettle(String cost, UnaryOperator<String> todo) {}

    /** The run is not in the roster. */
    default void notEntered(String why) {}

    /** A climb is about to look. */
    default void climbs(ClimbLook look) {}

    /** A drill goes on. */
    default void drills(DrillListener.Stage stage) {}
}

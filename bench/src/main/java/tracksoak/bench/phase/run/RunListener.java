package tracksoak.bench.phase.run;

import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.RunRecord;

/**
 * Hears how a run is getting on. Called from the run's own thread, never from a writer; must not block for long, but for {@link
 * #before}.
 */
public interface RunListener {

    /** A step is about to begin; it begins when this returns. */
    default void before(Traffic traffic) {}

    /** About five times a second. */
    void progress(Progress progress);

    /** The record so far, already judged: at the start, every ten seconds, after each phase and at the end. */
    void snapshot(RunRecord soFar);
}

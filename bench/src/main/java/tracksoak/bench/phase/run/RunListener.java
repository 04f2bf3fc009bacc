package tracksoak.bench.phase.run;

import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.RunRecord;

/** Hears how a run is getting on. Called from the run's own thread, never from a writer; must not block for long. */
public interface RunListener {

    /** About five times a second. */
    void progress(Progress progress);

    /** The record so far, already judged: at the start, every ten seconds, after each phase and at the end. */
    void snapshot(RunRecord soFar);
}

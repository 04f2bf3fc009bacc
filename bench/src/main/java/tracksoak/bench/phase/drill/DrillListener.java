package tracksoak.bench.phase.drill;

import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.drill.DrillRecord;

/** Hears how a drill is getting on. Called from the drill's own thread; must not block for long. */
public interface DrillListener {

    /** What comes next. */
    enum Stage {
        /** A short take that is stopped and closed in order. */
        STOP_FIRST,
        /** The take that will be cut off. */
        RECORDING,
        /** The drive is to be pulled now. */
        PULL_NOW,
        /** The drive is gone. */
        GONE,
        /** The drive is to be plugged in again. */
        PLUG_IN,
        /** The drive is back and is read. */
        READING
    }

    /** A stage begins. */
    void stage(Stage stage);

    /** About five times a second. */
    void progress(Progress progress);

    /** The record so far: at every stage and at the end. */
    void snapshot(DrillRecord soFar);
}

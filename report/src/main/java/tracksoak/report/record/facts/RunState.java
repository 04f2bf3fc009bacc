package tracksoak.report.record.facts;

/** How far a run came. */
public enum RunState {
    /** Still going on, or its process died. */
    RUNNING,
    /** Every phase of the plan was done, or a fault of the drive ended the run, which is an answer too. */
    COMPLETE,
    /** Stopped by a person. */
    INTERRUPTED,
    /** The bench itself or the computer kept the run from going on. */
    BROKEN
}

package tracksoak.report.record.facts;

/** The phases of a run. */
public enum PhaseKind {
    TAKE,
    FILL,
    /** A finished show is copied on at full speed, one file after another. */
    COPY,
    CLOSE,
    READ_BACK,
    PLAYBACK,
    /** Single blocks are laid over all the free room, or read again. */
    PROBES,
    KEEPSAKE;

    /** Whether it goes at the session's pace. */
    public boolean paced() {
        return this == TAKE || this == PLAYBACK;
    }
}

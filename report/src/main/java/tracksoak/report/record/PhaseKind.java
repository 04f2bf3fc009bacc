package tracksoak.report.record;

/** The phases of a run. */
public enum PhaseKind {
    TAKE,
    FILL,
    CLOSE,
    READ_BACK,
    PLAYBACK,
    KEEPSAKE
}

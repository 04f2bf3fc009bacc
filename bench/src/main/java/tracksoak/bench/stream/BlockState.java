package tracksoak.bench.stream;

/** What a block read back turned out to be. */
public enum BlockState {
    /** As written. */
    GOOD,
    /** Nothing but zeros or ones (0xFF): never written, or lost. */
    MISSING,
    /** A sound block of another run, or of the same place in an earlier pass. */
    STALE,
    /** A sound block of this run that belongs elsewhere: the drive's addresses wrap. */
    MISPLACED,
    /** The checksum does not fit, or the stamp is gone. */
    FLIPPED
}

package tracksoak.profiles;

/** What the session does with the drive. */
public enum SessionKind {
    /** Every track is written as it is played. */
    RECORDING,
    /** Every track is read back at once, nothing is written. */
    PLAYBACK,
    /** Every track is read back while the mix is written. */
    MIXDOWN,
    /** A finished show is copied on at full speed, then verified. */
    ARCHIVE
}

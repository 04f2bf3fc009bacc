package tracksoak.profiles;

/** How tracks share files. */
public enum FileLayout {
    /** One file per track. */
    FILE_PER_TRACK,
    /** All tracks of one sample rate and word length in one file, frame by frame. */
    INTERLEAVED
}

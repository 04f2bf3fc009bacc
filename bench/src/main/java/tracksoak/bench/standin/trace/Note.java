package tracksoak.bench.standin.trace;

/** What happened beside the requests; the order is that of the codes in the file. */
public enum Note {
    /** A client began to use the drive. */
    CONNECTED,
    /** The last connection of a client ended. */
    GONE,
    /** The drive stopped wholly, for so many µs. */
    STOP,
    /** A person said that audio was lost. */
    HEARD_LOST,
    /** A person said that none was. */
    HEARD_NONE,
    /** The trace was ended in order, after so many entries. */
    END
}

package tracksoak.bench.standin.trace;

/** What happened beside the requests; the order is that of the codes in the file. */
public enum Note {
    /** A client began to use the drive. */
    CONNECTED(0),
    /** The last connection of a client ended. */
    GONE(1),
    /** The drive stopped wholly, for so many µs. */
    STOP(2),
    /** A person said that audio was lost. */
    HEARD_LOST(3),
    /** A person said that none was. */
    HEARD_NONE(4),
    /** The trace was ended in order, after so many entries. */
    END(5),
    /** A probe found, after the stop before, that all tracks together fell short by so many µs; 0 where it is not known. */
    FELL_SHORT(6);

    private final int code;

    Note(int code) {
        this.code = code;
    }

    /** What stands for it in the file. */
    int code() {
        return code;
    }
}

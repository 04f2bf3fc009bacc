package tracksoak.bench.standin.trace;

/** What a trace tells of; the order is that of the codes in the file. */
public enum Asked {
    READ(0),
    WRITE(1),
    FLUSH(2),
    /** The recorder needs some bytes no longer. */
    TRIM(3),
    /** Zeros are to be written. */
    ZEROS(4),
    /** No request: something that happened, see {@link Note}. */
    NOTE(5);

    private final int code;

    Asked(int code) {
        this.code = code;
    }

    /** What stands for it in the file. */
    int code() {
        return code;
    }
}

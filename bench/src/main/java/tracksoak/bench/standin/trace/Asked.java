package tracksoak.bench.standin.trace;

/** What a trace tells of; the order is that of the codes in the file. */
public enum Asked {
    READ,
    WRITE,
    FLUSH,
    /** The recorder needs some bytes no longer. */
    TRIM,
    /** Zeros are to be written. */
    ZEROS,
    /** No request: something that happened, see {@link Note}. */
    NOTE
}

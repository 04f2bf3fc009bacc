package tracksoak.report.record.facts;

/** How a write gets past the host's memory. */
public enum IoMode {
    /** The page cache is bypassed. */
    DIRECT,
    /** The page cache is written through: each write returns once the device has it. */
    WRITE_THROUGH,
    /** A simulated drive on virtual time. */
    SIMULATED
}

package tracksoak.bench.climb;

/** The two questions of a climb. */
public enum Goal {
    /** How far does it go with every margin met? */
    MARGIN,
    /** How far does it go before audio is lost? */
    LOSS
}

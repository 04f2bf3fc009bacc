package tracksoak.bench.climb;

/**
 * The last rung that holds.
 *
 * @param how what is known of it
 * @param rung the rung, confirmed by a check; 0 unless {@code CONFIRMED}. Where it is {@code UNSURE}, the rung that could
 *     not be told
 * @param above the rung just above it that did not hold; 0 where there was none to try
 */
public record Edge(How how, int rung, int above) {

    /** What is known. */
    public enum How {
        /** A check held here. */
        CONFIRMED,
        /** Not even the first rung held. */
        NONE,
        /** Looks at one rung came to nothing too often, or once for a reason that stays. */
        UNSURE,
        /** Nobody asked. */
        NOT_ASKED
    }
}

package tracksoak.bench.climb;

import org.jspecify.annotations.Nullable;

/**
 * What one take or check told of one rung.
 *
 * @param kind take or check
 * @param rung the rung it was made at
 * @param carried whether every criterion was met; null if the host or something else kept it from being told
 * @param kept whether no audio was lost; null if that could not be told
 * @param lasting why another look would leave open what this one left open; null if it may not
 */
public record Observation(
        Kind kind,
        int rung,
        @Nullable Boolean carried,
        @Nullable Boolean kept,
        @Nullable String lasting) {

    /** A look after which, if it left anything open, another makes sense. */
    public Observation(Kind kind, int rung, @Nullable Boolean carried, @Nullable Boolean kept) {
        this(kind, rung, carried, kept, null);
    }

    /** How thorough a look was. */
    public enum Kind {
        /** A short take on the filled drive. */
        TAKE,
        /** A whole sound-check. */
        CHECK
    }

    public Observation {
        if (Boolean.TRUE.equals(carried) && !Boolean.TRUE.equals(kept)) {
            throw new IllegalArgumentException("rung " + rung + " cannot be carried with audio lost");
        }
    }

    /** The answer to one question. */
    @Nullable
    Boolean to(Goal goal) {
        return goal == Goal.MARGIN ? carried : kept;
    }
}

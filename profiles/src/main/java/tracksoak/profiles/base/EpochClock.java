package tracksoak.profiles.base;

/** The wall clock, for labels only: it may jump. */
@FunctionalInterface
public interface EpochClock {

    /** Now, in ms since 1970-01-01T00:00:00Z. */
    long epochMillis();
}

package tracksoak.profiles.base;

/** The monotonic clock, for durations. Its zero means nothing. */
@FunctionalInterface
public interface NanoClock {

    /** Now, in ns. */
    long nanoTime();
}

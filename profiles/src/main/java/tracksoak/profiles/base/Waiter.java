package tracksoak.profiles.base;

/** How a thread waits: by parking on a real machine, by moving the clock on virtual time. */
@FunctionalInterface
public interface Waiter {

    /** Waits until the monotonic clock shows {@code deadlineNs}, or somewhat later; may return early if interrupted. */
    void waitUntil(long deadlineNs);
}

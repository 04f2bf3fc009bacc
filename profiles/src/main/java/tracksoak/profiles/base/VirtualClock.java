package tracksoak.profiles.base;

/** A clock that moves only when told to: virtual time for simulated drives and tests. Used by one thread. */
public final class VirtualClock implements NanoClock, EpochClock, Waiter {

    private final long epochStartMs;
    private long nowNs;

    /** Starts at 0 ns, which is {@code epochStartMs} on the wall. */
    public VirtualClock(long epochStartMs) {
        this.epochStartMs = epochStartMs;
    }

    @Override
    public long nanoTime() {
        return nowNs;
    }

    @Override
    public long epochMillis() {
        return epochStartMs + nowNs / 1_000_000;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        nowNs = Math.max(nowNs, deadlineNs);
    }

    /** Moves on by {@code ns}, at least 0. */
    public void advance(long ns) {
        if (ns < 0) {
            throw new IllegalArgumentException("time moves forward only, asked for " + ns + " ns");
        }
        nowNs += ns;
    }
}

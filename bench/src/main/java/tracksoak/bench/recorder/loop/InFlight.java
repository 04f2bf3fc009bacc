package tracksoak.bench.recorder.loop;

/**
 * How long at least one call was in flight, however many were at once. Calls are told when they are made and when they
 * come back; their times may be told a little out of order, as several writers share it. All times in ns on one zero.
 * Thread-safe; allocates nothing.
 */
public final class InFlight {

    private final long lengthNs;
    private int calls;
    private long countedToNs;
    private long busyNs;

    /** Counts what lies between 0 and {@code lengthNs}. */
    public InFlight(long lengthNs) {
        this.lengthNs = lengthNs;
    }

    /** A call is made. */
    synchronized void called(long ns) {
        if (calls == 0) {
            countedToNs = Math.max(countedToNs, ns);
        }
        calls++;
    }

    /**
     * A call has come back.
     *
     * @return from when on the time until {@code ns} was not counted before; {@code ns} if all of it was
     */
    synchronized long returned(long ns) {
        long fromNs = count(ns);
        calls--;
        return fromNs;
    }

    /** A call made at {@code calledNs} is given up; like {@link #returned}. */
    synchronized long abandoned(long calledNs, long ns) {
        if (calls == 0) {
            called(calledNs);
        }
        return returned(ns);
    }

    /** Time counted so far. */
    synchronized long busyNs() {
        return busyNs;
    }

    private long count(long ns) {
        long fromNs = Math.min(countedToNs, ns);
        busyNs += clipped(ns) - clipped(fromNs);
        countedToNs = Math.max(countedToNs, ns);
        return fromNs;
    }

    private long clipped(long ns) {
        return Math.max(0, Math.min(ns, lengthNs));
    }
}

package tracksoak.profiles.base;

import java.util.concurrent.locks.LockSupport;

/** The clocks of this machine. */
@ReadsSystemClock
public final class SystemClocks {

    /** Monotonic clock of this machine. */
    public static final NanoClock NANO = System::nanoTime;

    /** Wall clock of this machine. */
    public static final EpochClock EPOCH = System::currentTimeMillis;

    /** Parks the calling thread. Overshoots by 0.1–0.25 ms on an idle machine. */
    public static final Waiter PARK = deadlineNs -> {
        long left;
        while ((left = deadlineNs - System.nanoTime()) > 0
                && !Thread.currentThread().isInterrupted()) {
            LockSupport.parkNanos(left);
        }
    };

    private SystemClocks() {}
}

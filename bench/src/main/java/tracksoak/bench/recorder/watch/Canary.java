package tracksoak.bench.recorder.watch;

import java.util.concurrent.TimeUnit;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Waiter;

/**
 * An idle control beside the measurement: a thread that does nothing but wake up on time. When it wakes late, the host
 * was held up, whatever the drive did.
 */
public final class Canary implements AutoCloseable {

    /** How often it wakes, in ns. */
    public static final long INTERVAL_NS = TimeUnit.MILLISECONDS.toNanos(10);

    /** Every so many times it does something besides. */
    static final int BESIDES = 10;

    private final DelayLog log;
    private final NanoClock clock;
    private final Waiter waiter;
    private final Runnable besides;
    private final Thread thread;
    private volatile boolean stopped;

    /**
     * Starts the thread.
     *
     * @param besides done every {@link #BESIDES} times, between two waits
     */
    Canary(DelayLog log, NanoClock clock, Waiter waiter, Runnable besides) {
        this.log = log;
        this.clock = clock;
        this.waiter = waiter;
        this.besides = besides;
        this.thread = new Thread(this::sing, "canary");
        thread.setDaemon(true);
        thread.start();
    }

    private void sing() {
        for (int times = 0; !stopped; times++) {
            if (times % BESIDES == 0) {
                besides.run();
            }
            long due = clock.nanoTime() + INTERVAL_NS;
            log.expect(due);
            waiter.waitUntil(due);
            log.late(due, clock.nanoTime());
        }
    }

    @Override
    public void close() {
        stopped = true;
    }
}

package tracksoak.bench.recorder.watch;

import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import tracksoak.profiles.base.NanoClock;

/**
 * How long a device had nothing to do, by its own counter, read now and then. What a call takes beyond the device's time is
 * not the device's. Thread-safe.
 */
final class DeviceIdle {

    private static final int KEPT = 1 << 12;

    /** Shorter intervals lie between two samples: the counter is not asked for them. */
    private static final long LEAST_NS = Canary.BESIDES * Canary.INTERVAL_NS;

    private final NanoClock clock;
    private final LongSupplier busyMs;
    private final long[] atNs = new long[KEPT];
    private final long[] seenMs = new long[KEPT];
    private long samples;

    /** @param busyMs time in which the device had work so far, in ms; below 0 where that is not known */
    DeviceIdle(NanoClock clock, LongSupplier busyMs) {
        this.clock = clock;
        this.busyMs = busyMs;
    }

    /** Reads the counter. */
    void sample() {
        long ms = busyMs.getAsLong();
        if (ms >= 0) {
            // held up in between, the device seems to have worked more, never less
            keep(clock.nanoTime(), ms);
        }
    }

    private synchronized void keep(long now, long ms) {
        atNs[(int) (samples % KEPT)] = now;
        seenMs[(int) (samples % KEPT)] = ms;
        samples++;
    }

    /**
     * Time in an interval of the recent past in which the device had nothing to do, at least: what it worked just before and
     * just behind the interval counts as inside.
     *
     * @return ns, 0 where it is not known
     */
    long idleNs(long fromNs, long toNs) {
        if (toNs - fromNs < LEAST_NS) {
            return 0;
        }
        long now = busyMs.getAsLong();
        return now < 0 ? 0 : idleNs(fromNs, toNs, now);
    }

    private synchronized long idleNs(long fromNs, long toNs, long nowMs) {
        long at = samples - 1;
        while (at > 0 && at > samples - KEPT && atNs[(int) (at % KEPT)] - fromNs > 0) {
            at--;
        }
        if (at < 0) {
            return 0;
        }
        long from = Math.max(fromNs, atNs[(int) (at % KEPT)]);
        long workedMs = nowMs - seenMs[(int) (at % KEPT)];
        return workedMs < 0 ? 0 : Math.max(0, toNs - from - TimeUnit.MILLISECONDS.toNanos(workedMs));
    }
}

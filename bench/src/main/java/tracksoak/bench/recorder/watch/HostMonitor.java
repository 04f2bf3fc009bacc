package tracksoak.bench.recorder.watch;

import java.util.OptionalDouble;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.HostDelays;

/**
 * Watches the host during one phase: a canary, the recorder's own delays, sleep and jumps of the wall clock. On virtual
 * time there is nothing to watch.
 */
public final class HostMonitor implements HostWatch, AutoCloseable {

    /** Smaller differences between the clocks are not told apart from their own error, in ms. */
    private static final double CLOCK_ERROR_MS = 100;

    private final NanoClock clock;
    private final EpochClock epoch;
    private final SleepProbe sleep;
    private final DelayLog canaryLog = new DelayLog();
    private final DelayLog ownLog = new DelayLog();
    private final DeviceIdle idle;
    private final @Nullable Canary canary;
    private final long startNs;
    private final long startEpochMs;
    private final OptionalDouble startAwakeS;

    /**
     * Starts watching; with {@code live} false no thread is started.
     *
     * @param deviceBusyMs time in which the device had work so far, in ms; below 0 where that is not known
     */
    public HostMonitor(
            NanoClock clock,
            EpochClock epoch,
            Waiter waiter,
            SleepProbe sleep,
            boolean live,
            LongSupplier deviceBusyMs) {
        this.clock = clock;
        this.epoch = epoch;
        this.sleep = sleep;
        this.startNs = clock.nanoTime();
        this.startEpochMs = epoch.epochMillis();
        this.startAwakeS = sleep.secondsSinceBoot();
        this.idle = new DeviceIdle(clock, deviceBusyMs);
        this.canary = live ? new Canary(canaryLog, clock, waiter, idle::sample) : null;
    }

    /** Where the recorder loop notes its own delays. */
    public DelayLog ownDelays() {
        return ownLog;
    }

    @Override
    public long delayNs(long fromNs, long toNs) {
        return Math.max(canaryLog.delayNs(fromNs, toNs), ownLog.delayNs(fromNs, toNs));
    }

    @Override
    public long heldUpNs(long fromNs, long toNs) {
        return Math.max(delayNs(fromNs, toNs), idle.idleNs(fromNs, toNs));
    }

    /** The same watch with times counted from {@code zeroNs} on the clock. */
    public HostWatch since(long zeroNs) {
        return new HostWatch() {
            @Override
            public long delayNs(long fromNs, long toNs) {
                return HostMonitor.this.delayNs(fromNs + zeroNs, toNs + zeroNs);
            }

            @Override
            public long heldUpNs(long fromNs, long toNs) {
                return HostMonitor.this.heldUpNs(fromNs + zeroNs, toNs + zeroNs);
            }
        };
    }

    /** The longest delay so far, in ms. */
    public double worstMs() {
        return Math.max(canaryLog.maxNs(), ownLog.maxNs()) / 1e6;
    }

    /** What the host did so far. */
    public HostDelays facts() {
        double monotonicMs = (clock.nanoTime() - startNs) / 1e6;
        double wallMs = epoch.epochMillis() - startEpochMs;
        OptionalDouble awakeS = sleep.secondsSinceBoot();
        boolean known = startAwakeS.isPresent() && awakeS.isPresent();
        double asleepMs =
                known ? beyondError((awakeS.getAsDouble() - startAwakeS.getAsDouble()) * 1e3 - monotonicMs) : 0;
        return new HostDelays(
                canaryLog.maxNs() / 1e6,
                canaryLog.totalNs() / 1e6,
                ownLog.maxNs() / 1e6,
                ownLog.totalNs() / 1e6,
                Math.max(0, asleepMs),
                beyondError(wallMs - monotonicMs - asleepMs),
                known);
    }

    private static double beyondError(double ms) {
        return Math.abs(ms) < CLOCK_ERROR_MS ? 0 : ms;
    }

    @Override
    public void close() {
        if (canary != null) {
            canary.close();
        }
    }
}

package tracksoak.bench.phase.run;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.NeverReturnedException;
import tracksoak.bench.recorder.watch.AbandonedException;
import tracksoak.bench.recorder.watch.CallWatch;
import tracksoak.profiles.base.NanoClock;

/**
 * Does work that touches the drive on throw-away threads and watches it from the calling one, so that a call that never
 * returns holds up nobody but its own thread. On virtual time it does the work right here.
 */
public final class WatchedExecutor {

    /** How often the watchdog looks, in ms. */
    private static final long LOOK_MS = 20;

    /** A call that has been out for longer is not waited for once a person wants the end, in ns. */
    private static final long STOP_PATIENCE_NS = 5_000_000_000L;

    private static final long VIRTUAL_BEAT_NS = 1_000_000_000L;

    private final CallWatch watch;
    private final NanoClock clock;
    private final long hangLimitNs;
    private final boolean virtual;
    private final BooleanSupplier cancelled;
    private long lastBeatNs;

    WatchedExecutor(CallWatch watch, NanoClock clock, double hangLimitS, boolean virtual, BooleanSupplier cancelled) {
        this.watch = watch;
        this.clock = clock;
        this.hangLimitNs = (long) (hangLimitS * 1e9);
        this.virtual = virtual;
        this.cancelled = cancelled;
    }

    /** A piece of work; it looks at {@code stop} between two calls to the drive and ends soon once that is true. */
    public interface Job {
        public void work(BooleanSupplier stop) throws IOException;
    }

    /**
     * How the work ended.
     *
     * @param end which way
     * @param problem what the drive or the bench threw, null unless {@code FAILED} or {@code BROKEN}
     * @param stuck the call that had not come back, null unless {@code HUNG} or {@code UNANSWERED}
     */
    public record Outcome(End end, @Nullable Throwable problem, CallWatch.@Nullable Call stuck) {
        boolean done() {
            return end == End.DONE;
        }
    }

    /** Ways for work to end. */
    enum End {
        DONE,
        CANCELLED,
        FAILED,
        BROKEN,
        HUNG,
        /** Cancelled while a call was out, for less than the hang limit, that was not waited for any longer. */
        UNANSWERED
    }

    /**
     * Does all jobs at once and returns when all have ended or one hangs.
     *
     * @param tick called about every 20 ms meanwhile, on the calling thread; on virtual time about once a second of it
     */
    public Outcome work(List<? extends Job> jobs, Runnable tick) {
        AtomicReference<@Nullable Throwable> first = new AtomicReference<>();
        BooleanSupplier stop = () -> first.get() != null || cancelled.getAsBoolean();
        if (virtual) {
            jobs.forEach(job -> attempt(job, () -> beat(tick) || stop.getAsBoolean(), first));
        } else {
            Outcome stuck = watchThreads(jobs, stop, first, tick);
            if (stuck != null) {
                return stuck;
            }
        }
        return ended(first.get());
    }

    /** On virtual time, now and then between two calls of a job. */
    private boolean beat(Runnable tick) {
        if (clock.nanoTime() - lastBeatNs >= VIRTUAL_BEAT_NS) {
            lastBeatNs = clock.nanoTime();
            tick.run();
        }
        return false;
    }

    private @Nullable Outcome watchThreads(
            List<? extends Job> jobs, BooleanSupplier stop, AtomicReference<@Nullable Throwable> first, Runnable tick) {
        CountDownLatch left = new CountDownLatch(jobs.size());
        List<Thread> threads = new ArrayList<>();
        for (Job job : jobs) {
            Thread thread = new Thread(
                    () -> {
                        try {
                            attempt(job, stop, first);
                        } finally {
                            left.countDown();
                        }
                    },
                    "drive-" + threads.size());
            thread.setDaemon(true);
            threads.add(thread);
        }
        threads.forEach(Thread::start);
        while (!ended(left)) {
            CallWatch.Call oldest = watch.oldest();
            long outNs = oldest == null ? 0 : clock.nanoTime() - oldest.sinceNs();
            if (outNs > hangLimitNs) {
                return new Outcome(End.HUNG, null, oldest);
            }
            if (outNs > STOP_PATIENCE_NS && cancelled.getAsBoolean()) {
                return new Outcome(End.UNANSWERED, null, oldest);
            }
            tick.run();
        }
        return null;
    }

    private static void attempt(Job job, BooleanSupplier stop, AtomicReference<@Nullable Throwable> first) {
        try {
            job.work(stop);
        } catch (AbandonedException late) {
            // the run has ended without this thread
        } catch (IOException | RuntimeException | Error problem) {
            first.compareAndSet(null, problem);
        }
    }

    private static boolean ended(CountDownLatch left) {
        try {
            return left.await(LOOK_MS, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private Outcome ended(@Nullable Throwable problem) {
        if (problem instanceof NeverReturnedException never) {
            String what = String.valueOf(never.getMessage());
            return new Outcome(End.HUNG, null, new CallWatch.Call(what, clock.nanoTime() - hangLimitNs));
        }
        if (problem instanceof IOException) {
            return new Outcome(End.FAILED, problem, null);
        }
        if (problem != null) {
            return new Outcome(End.BROKEN, problem, null);
        }
        return new Outcome(cancelled.getAsBoolean() ? End.CANCELLED : End.DONE, null, null);
    }
}

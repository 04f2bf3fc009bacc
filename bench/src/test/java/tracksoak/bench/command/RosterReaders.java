package tracksoak.bench.command;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.locks.LockSupport;
import org.HdrHistogram.Histogram;
import tracksoak.profiles.base.SystemClocks;

/**
 * Readers of a roster, each with a thread of its own. A page falls due at random, whether the one before has come or not, and its response time
 * counts from then, so that waiting behind others is in it.
 */
final class RosterReaders {

    static final int READERS = 50;

    private static final int SEED = 11;

    private final Page page;
    private final Duration pause;

    /** What a reader does: reads a page, whole. */
    interface Page {
        /**
         * Reads one page.
         *
         * @param number which one of many; different numbers ask different things
         */
        void read(int number) throws Exception;
    }

    /**
     * The readers.
     *
     * @param pause mean time from one page of a reader to its next; 0 for the next at once when one has come
     */
    RosterReaders(Page page, Duration pause) {
        this.page = page;
        this.pause = pause;
    }

    /**
     * Reads for so long.
     *
     * @param meanwhile done every fifth of a second by one more thread
     * @return response times in µs
     */
    Histogram read(Duration length, Runnable meanwhile) throws Exception {
        ExecutorService crew = Executors.newFixedThreadPool(READERS + 1);
        try {
            long start = SystemClocks.NANO.nanoTime();
            long end = start + length.toNanos();
            List<Future<Histogram>> readers = new ArrayList<>();
            for (int i = 0; i < READERS; i++) {
                int reader = i;
                Callable<Histogram> work = () -> reader(reader, start, end);
                readers.add(crew.submit(work));
            }
            Future<?> writer = crew.submit(() -> {
                for (long due = start; due < end; due += 200_000_000L) {
                    await(due);
                    meanwhile.run();
                }
            });
            Histogram all = new Histogram(3);
            for (Future<Histogram> reader : readers) {
                all.add(reader.get());
            }
            writer.get();
            return all;
        } finally {
            crew.shutdownNow();
        }
    }

    private Histogram reader(int reader, long start, long end) throws Exception {
        // the first numbers of neighbouring seeds are far apart here, so readers do not begin all at once
        SplittableRandom random = new SplittableRandom(SEED * 1_000L + reader);
        Histogram times = new Histogram(3);
        long due = start + gap(random);
        for (int i = 0; due < end; i++) {
            await(due);
            page.read(reader + i * READERS);
            long done = SystemClocks.NANO.nanoTime();
            times.recordValue(Math.max(0, (done - due) / 1_000));
            due = pause.isZero() ? done : due + gap(random);
        }
        return times;
    }

    /** Exponential, as with readers who know nothing of each other. */
    private long gap(SplittableRandom random) {
        return (long) (-Math.log(1 - random.nextDouble()) * pause.toNanos());
    }

    private static void await(long due) {
        for (long left = due - SystemClocks.NANO.nanoTime(); left > 0; left = due - SystemClocks.NANO.nanoTime()) {
            LockSupport.parkNanos(left);
        }
    }
}

package tracksoak.bench.drive.system;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;

/**
 * Asks something that may never answer. A hung drive blocks even a question for its size, and neither interrupting nor
 * closing frees the thread that asked; so a throw-away daemon thread asks, and is left behind if no answer comes.
 */
public final class TimedCall {

    private TimedCall() {}

    /**
     * Runs {@code work} on a thread of its own and waits for it.
     *
     * @param limit how long to wait
     * @param what what is being done, for the error and the thread's name, for example {@code read the size of /mnt/a}
     * @throws TookTooLongException if no answer came in time; the thread is left behind
     * @throws IOException what {@code work} threw, wrapped if it was another checked exception
     */
    public static <T extends @Nullable Object> T within(Duration limit, String what, Callable<T> work)
            throws IOException {
        FutureTask<T> task = new FutureTask<>(work);
        Thread thread = new Thread(task, "tracksoak: " + what);
        thread.setDaemon(true);
        thread.start();
        try {
            return task.get(limit.toNanos(), TimeUnit.NANOSECONDS);
        } catch (TimeoutException e) {
            throw new TookTooLongException(what, limit);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("interrupted while waiting to " + what);
        } catch (ExecutionException e) {
            throw rethrown(what, e.getCause());
        }
    }

    /**
     * Runs all of {@code work} at once, each on a thread of its own, and waits for all together.
     *
     * @param limit how long to wait for all of them
     * @return what each found, in order; empty where one threw or had no answer in time
     */
    public static <T> List<Optional<T>> together(Duration limit, String what, List<Callable<T>> work) {
        CountDownLatch left = new CountDownLatch(work.size());
        List<FutureTask<T>> tasks = new ArrayList<>();
        for (Callable<T> each : work) {
            FutureTask<T> task = new FutureTask<>(each) {
                @Override
                protected void done() {
                    left.countDown();
                }
            };
            tasks.add(task);
            Thread thread = new Thread(task, "tracksoak: " + what);
            thread.setDaemon(true);
            thread.start();
        }
        try {
            boolean all = left.await(limit.toNanos(), TimeUnit.NANOSECONDS);
            return tasks.stream()
                    .map(task -> all || task.isDone() ? result(task) : Optional.<T>empty())
                    .toList();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return tasks.stream().map(task -> Optional.<T>empty()).toList();
        }
    }

    private static <T> Optional<T> result(FutureTask<T> task) {
        try {
            return Optional.ofNullable(task.get());
        } catch (ExecutionException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }

    private static IOException rethrown(String what, @Nullable Throwable cause) {
        if (cause instanceof RuntimeException runtime) {
            throw runtime;
        }
        if (cause instanceof Error error) {
            throw error;
        }
        return cause instanceof IOException io ? io : new IOException("could not " + what + ": " + cause, cause);
    }

    /** No answer came in time. */
    public static final class TookTooLongException extends IOException {
        TookTooLongException(String what, Duration limit) {
            super("gave up after " + limit.toMillis() + " ms: " + what);
        }
    }
}

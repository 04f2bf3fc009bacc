package tracksoak.bench.drive;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;

/**
 * Asks something that may never answer. A hung drive blocks even a question for its size, and neither interrupting nor
 * closing frees the thread that asked; so a throw-away daemon thread asks, and is left behind if no answer comes.
 */
public final class Patiently {

    private Patiently() {}

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

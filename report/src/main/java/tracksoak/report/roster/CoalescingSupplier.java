package tracksoak.report.roster;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * Asks for a number once for all who want it at the same moment. Whoever gets an answer had come before it was asked for, so nobody is told
 * what was already old when they came. At most one question is under way. Any thread.
 */
final class CoalescingSupplier {

    private final LongSupplier source;
    private final ReentrantLock asking = new ReentrantLock();
    private @Nullable CompletableFuture<Long> waiting;

    CoalescingSupplier(LongSupplier source) {
        this.source = source;
    }

    /** The number; what the source throws, all who waited for it get. */
    long get() {
        CompletableFuture<Long> mine;
        boolean first;
        synchronized (this) {
            first = waiting == null;
            mine = waiting == null ? new CompletableFuture<>() : waiting;
            waiting = mine;
        }
        if (first) {
            ask(mine);
        }
        try {
            return mine.join();
        } catch (CompletionException e) {
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw e;
        }
    }

    private void ask(CompletableFuture<Long> mine) {
        asking.lock();
        try {
            synchronized (this) {
                // from here on whoever comes waits for the next question
                waiting = null;
            }
            mine.complete(source.getAsLong());
        } catch (RuntimeException | Error e) {
            mine.completeExceptionally(e);
        } finally {
            asking.unlock();
        }
    }
}

package tracksoak.report.roster.web.server;

import java.util.concurrent.Executor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.eclipse.jetty.util.thread.Scheduler;
import org.jspecify.annotations.Nullable;

/**
 * Looks whether the roster changed while pages wait for it: events also come in past this server, from a command on the
 * same computer or another server on the same database. Asks nothing while nobody waits.
 */
final class ChangePoll {

    private static final long BEAT_EVERY_MS = 3_000;

    private final Live live;
    private final Supplier<String> mark;
    private final Scheduler scheduler;
    private final Executor workers;
    private final Consumer<Throwable> log;
    private final long everyMs;
    private final AtomicBoolean running = new AtomicBoolean(true);
    private @Nullable String last;
    private int looks;

    /** @param everyMs between two looks */
    ChangePoll(
            Live live,
            Supplier<String> mark,
            Scheduler scheduler,
            Executor workers,
            Consumer<Throwable> log,
            long everyMs) {
        this.live = live;
        this.mark = mark;
        this.scheduler = scheduler;
        this.workers = workers;
        this.log = log;
        this.everyMs = everyMs;
    }

    void start() {
        scheduler.schedule(() -> workers.execute(this::look), everyMs, TimeUnit.MILLISECONDS);
    }

    void stop() {
        running.set(false);
    }

    /** Never runs twice at once: the next look is asked for at the end of this one. */
    private void look() {
        if (!running.get()) {
            return;
        }
        try {
            if (live.watchers() == 0) {
                last = null;
            } else {
                live.dismiss();
                String now = mark.get();
                // told at the first look, too: the roster may have changed since the page joined
                if (!now.equals(last)) {
                    live.tell(now);
                }
                last = now;
                if (++looks % (BEAT_EVERY_MS / everyMs) == 0) {
                    live.beat();
                }
            }
        } catch (RuntimeException | Error e) {
            log.accept(e);
        } finally {
            if (running.get()) {
                start();
            }
        }
    }
}

package tracksoak.bench.job;

import java.util.function.IntSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;

/** Ends what goes on, or what is about to begin. {@link #cancel} may be called by any thread at any time. */
public final class OffSwitch {

    private boolean off;
    private @Nullable Runnable end;

    /** Ends what goes on soon, and everything after it at once. */
    public synchronized void cancel() {
        off = true;
        if (end != null) {
            end.run();
        }
    }

    public synchronized boolean cancelled() {
        return off;
    }

    /** Something is about to begin that {@code toEnd} ends; at once if it was cancelled before. */
    public synchronized void begins(Runnable toEnd) {
        end = toEnd;
        if (off) {
            toEnd.run();
        }
    }

    /** Does work that a signal to stop ends, too, and gives its exit code. What it printed is out then. */
    public int during(StopSignal stop, Console console, IntSupplier work) {
        try (StopSignal.Watch watch = stop.onStop(this::cancel)) {
            int code = work.getAsInt();
            console.out().flush();
            return cancelled() || watch.stopped() ? Exit.INTERRUPTED : code;
        }
    }
}

package tracksoak.bench.job;

import org.jspecify.annotations.Nullable;

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
}

package tracksoak.bench.command.console;

import java.util.function.IntSupplier;
import tracksoak.bench.job.OffSwitch;

/** Tells a command that the process is asked to end: Ctrl-C, or the system's TERM. */
public interface StopSignal {

    /**
     * Has {@code cancel} called, from another thread, when the process is asked to end. The process then waits a bounded
     * time for {@link Watch#close}, so that what was measured so far is kept.
     */
    Watch onStop(Runnable cancel);

    /** The process must not wait for its threads any more: one of them hangs in the drive. */
    void doNotWait();

    /** Does work that a signal to stop ends, too, and gives its exit code. What it printed is out then. */
    default int during(OffSwitch off, Console console, IntSupplier work) {
        try (Watch watch = onStop(off::cancel)) {
            int code = work.getAsInt();
            console.out().flush();
            return off.cancelled() || watch.stopped() ? Exit.INTERRUPTED : code;
        }
    }

    /** Open as long as there is something to keep. */
    interface Watch extends AutoCloseable {

        /** Whether the process was asked to end. */
        boolean stopped();

        /** All is kept. */
        @Override
        void close();
    }
}

package tracksoak.bench.job;

/** Tells a command that the process is asked to end: Ctrl-C, or the system's TERM. */
public interface StopSignal {

    /**
     * Has {@code cancel} called, from another thread, when the process is asked to end. The process then waits a bounded
     * time for {@link Watch#close}, so that what was measured so far is kept.
     */
    Watch onStop(Runnable cancel);

    /** The process must not wait for its threads any more: one of them hangs in the drive. */
    void doNotWait();

    /** Open as long as there is something to keep. */
    interface Watch extends AutoCloseable {

        /** Whether the process was asked to end. */
        boolean stopped();

        /** All is kept. */
        @Override
        void close();
    }
}

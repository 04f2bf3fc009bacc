package tracksoak.bench.command.main;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.StopSignal;

/** How this process ends when it is asked to: the run is cancelled, what it measured is kept, then the code says so. */
@EndsTheProcess
final class ProcessEnd implements StopSignal {

    static final ProcessEnd INSTANCE = new ProcessEnd();

    /** A cancelled run keeps its record within this time, in s, unless the drive hangs. */
    private static final long PATIENCE_S = 10;

    private volatile boolean mustNotWait;

    private ProcessEnd() {}

    /** True if a thread hangs in the drive, so that the process must be cut off. */
    boolean mustNotWait() {
        return mustNotWait;
    }

    @Override
    public void doNotWait() {
        mustNotWait = true;
    }

    @Override
    public Watch onStop(Runnable cancel) {
        EndWatch watch = new EndWatch(cancel);
        Runtime.getRuntime().addShutdownHook(watch.hook);
        return watch;
    }

    @EndsTheProcess
    private static final class EndWatch implements Watch {

        private final CountDownLatch kept = new CountDownLatch(1);
        private final Thread hook;
        private volatile boolean stopped;

        EndWatch(Runnable cancel) {
            hook = new Thread(() -> stop(cancel), "asked to end");
        }

        private void stop(Runnable cancel) {
            stopped = true;
            cancel.run();
            try {
                if (!kept.await(PATIENCE_S, TimeUnit.SECONDS)) {
                    System.err.println(
                            "tracksoak: the run did not end within " + PATIENCE_S
                                    + " s; its record, where one was begun, holds what was measured up to its last snapshot, and what lies on the drive still goes with: tracksoak clear PATH --yes");
                }
            } catch (InterruptedException nobodyDoesThat) {
                Thread.currentThread().interrupt();
            }
            Runtime.getRuntime().halt(Exit.INTERRUPTED);
        }

        @Override
        public boolean stopped() {
            return stopped;
        }

        @Override
        public void close() {
            kept.countDown();
            if (!stopped) {
                try {
                    Runtime.getRuntime().removeShutdownHook(hook);
                } catch (IllegalStateException alreadyEnding) {
                    // The hook waits for nothing any more and ends the process.
                    return;
                }
            }
        }
    }
}

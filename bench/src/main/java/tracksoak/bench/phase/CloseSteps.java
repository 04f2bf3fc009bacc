package tracksoak.bench.phase;

import java.io.IOException;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.report.record.CloseFacts;

/** The steps from "stop" to "safe to unplug", each timed. One thread; read by another once the work has ended. */
final class CloseSteps {

    private final Bench bench;
    private final StreamFiles files;
    private final long stopNs;
    private long drainedNs;
    private long headersNs;
    private long flushedNs;
    private long closedNs;
    private long endNs;

    /**
     * The clock starts now, or sooner.
     *
     * @param sinceStopNs how long "stop" was pressed before the last call of the take came back, in ns
     */
    CloseSteps(Bench bench, StreamFiles files, long sinceStopNs) {
        this.bench = bench;
        this.files = files;
        this.stopNs = bench.clock.nanoTime() - sinceStopNs;
        this.drainedNs = stopNs;
    }

    /** When "stop" was pressed, on the clock. */
    long stopNs() {
        return stopNs;
    }

    /** Notes that nothing is left in the recorder's buffer. */
    void drained() {
        drainedNs = bench.clock.nanoTime();
    }

    /** Rewrites every header, flushes and closes every file, flushes the directory. */
    void rest() throws IOException {
        for (int stream = 0; stream < files.streams(); stream++) {
            files.rewriteHeader(stream);
        }
        headersNs = bench.clock.nanoTime();
        for (int stream = 0; stream < files.streams(); stream++) {
            files.flushWhole(stream);
        }
        flushedNs = bench.clock.nanoTime();
        for (int stream = 0; stream < files.streams(); stream++) {
            files.close(stream);
        }
        closedNs = bench.clock.nanoTime();
        bench.drive.syncFolder();
        endNs = bench.clock.nanoTime();
    }

    CloseFacts facts() {
        return new CloseFacts(
                ms(stopNs, drainedNs),
                ms(drainedNs, headersNs),
                ms(headersNs, flushedNs),
                ms(flushedNs, closedNs),
                ms(closedNs, endNs),
                ms(stopNs, endNs),
                files.streams());
    }

    private static double ms(long fromNs, long toNs) {
        return (toNs - fromNs) / 1e6;
    }
}

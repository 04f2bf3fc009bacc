package tracksoak.bench.phase.run;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** From "stop" to "safe to unplug", step by step, each timed. One thread; read by another once the work has ended. */
final class ClosePhase {

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
    ClosePhase(Bench bench, StreamFiles files, long sinceStopNs) {
        this.bench = bench;
        this.files = files;
        this.stopNs = bench.clock.nanoTime() - sinceStopNs;
        this.drainedNs = stopNs;
    }

    /** Writes what is left in a recorder's buffer. */
    interface Drain {
        void drain() throws IOException;
    }

    /**
     * The whole phase.
     *
     * @param sinceStopNs how long "stop" was pressed before the last call came back, in ns
     * @param totals of the books, asked before and after
     */
    static PhaseFacts close(
            Bench bench, StreamFiles files, long sinceStopNs, Drain drain, Supplier<TakeFigures.Totals> totals) {
        PhaseFacts.Builder notes = bench.notes(PhaseKind.CLOSE);
        TakeFigures.Totals atStop = totals.get();
        try (HostMonitor host = bench.monitor()) {
            Optional<Counters> before = bench.drive.counters();
            ClosePhase close = new ClosePhase(bench, files, sinceStopNs);
            WatchedExecutor.Outcome outcome = bench.executor.work(
                    List.of(stop -> {
                        drain.drain();
                        close.drained();
                        close.rest();
                    }),
                    () -> {});
            TakeFigures.Totals now = totals.get();
            long bytes = now.writtenBytes() - atStop.writtenBytes();
            notes.seconds((bench.clock.nanoTime() - close.stopNs()) / 1e9);
            notes.operations(now.operations() - atStop.operations());
            notes.bytes(bytes);
            notes.busyFraction(1);
            notes.complete(outcome.done());
            notes.fault(bench.fault(outcome, close.stopNs(), bytes));
            notes.close(outcome.done() ? close.facts() : null);
            notes.device(bench.evidence(before, bytes));
            notes.hostDelays(host.facts());
            return notes.build();
        }
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

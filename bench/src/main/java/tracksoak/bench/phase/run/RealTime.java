package tracksoak.bench.phase.run;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import tracksoak.bench.recorder.loop.FlushSchedule;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.RecorderLoop;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;

/** What the phases at session rate do alike, whether they record or play. */
final class RealTime {

    /** Between opening the files and the first sample, in ns. */
    private static final long LEAD_IN_NS = TimeUnit.MILLISECONDS.toNanos(20);

    /** A parked loop looks this often whether it should stop, in ns. */
    private static final long NAP_NS = TimeUnit.MILLISECONDS.toNanos(100);

    private RealTime() {}

    /** When the first sample is due, on the clock. */
    static long startNs(Bench bench) {
        return bench.clock.nanoTime() + (bench.virtual ? 0 : LEAD_IN_NS);
    }

    /** How many loops share the work on these streams. */
    static int loops(Bench bench, StreamTable table) {
        return bench.virtual ? 1 : Math.min(bench.request.session().writers(), table.streams());
    }

    /** What so many loops write, made before the clock of a take starts, as it takes its time. */
    static List<ChunkStamper> stampers(int loops, Bench bench, StreamTable table) {
        return IntStream.range(0, loops).mapToObj(loop -> bench.stamper(table)).toList();
    }

    /** As many loops as stampers that record into {@code files} together. */
    static List<RecorderLoop> recorders(
            List<ChunkStamper> stampers,
            Bench bench,
            RecorderLedger ledger,
            StreamTable table,
            StreamFiles files,
            HostMonitor host,
            long startNs) {
        FlushSchedule flushes = new FlushSchedule(
                bench.request.session().flushS(), bench.request.session().headerS(), table.streams(), startNs);
        return stampers.stream()
                .map(stamper -> new RecorderLoop(
                        ledger,
                        table,
                        files,
                        stamper,
                        flushes,
                        bench.clock,
                        host.ownDelays(),
                        bench.drive.alignmentBytes(),
                        startNs))
                .toList();
    }

    /** Waits for the next thing to do, or until it is time to look whether to stop. */
    static void rest(Bench bench, long dueNs) {
        long now = bench.clock.nanoTime();
        if (dueNs > now) {
            bench.waiter.waitUntil(bench.virtual ? dueNs : Math.min(dueNs, now + NAP_NS));
        }
    }

    /** Where such a phase is, {@code sinceNs} after its first sample. */
    static Bench.Now now(long sinceNs, double lengthS, RecorderLedger.Glance glance) {
        return new Bench.Now(
                sinceNs / 1e9,
                Math.max(0, lengthS - sinceNs / 1e9),
                glance.busyNs() / 1e9,
                glance.streamsHit(),
                glance.backlogMs(),
                glance.peakMs(),
                glance.worstServiceMs(),
                glance.worstLostMs(),
                glance.writtenBytes());
    }
}

package tracksoak.bench.replay;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import tracksoak.bench.recorder.loop.FlushSchedule;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.RecorderLoop;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.Latencies;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StreamTotals;

/** One take played again on virtual time, through the recorder's own books and loop. */
final class Playing {

    private final Session session;
    private final StreamTable table;
    private final RecorderLedger ledger;
    private final VirtualClock clock = new VirtualClock(0);
    private TakeFigures figures;
    private double drainMs;

    private Playing(Session session, StreamTable table, RecorderLedger ledger) {
        this.session = session;
        this.table = table;
        this.ledger = ledger;
        this.figures = ledger.figures(0);
    }

    /** Plays a take of {@code seconds} and drains it. */
    static Playing of(Session session, double seconds, int alignment, Timing timing) {
        StreamTable table = new StreamTable(
                session.streams(), alignment, session.arrival(), session.bufferS(), Math.round(seconds * 1e9));
        RecorderLedger ledger =
                new RecorderLedger(table, TimeUnit.MILLISECONDS.toNanos(session.stallLimitMs()), HostWatch.NONE);
        Playing playing = new Playing(session, table, ledger);
        try {
            playing.play(new TapeDrive(playing.clock, timing, alignment));
        } catch (IOException never) {
            throw new UncheckedIOException("a tape refuses nothing", never);
        }
        return playing;
    }

    private void play(TapeDrive drive) throws IOException {
        StreamFiles files = new StreamFiles(drive, "replay", 1, 1, table.streams(), session.fileLimitBytes());
        for (int i = 0; i < table.streams(); i++) {
            files.begin(i);
        }
        RecorderLoop loop = new RecorderLoop(
                ledger,
                table,
                files,
                new ChunkStamper(1, 1, false, table.largestChunkBytes(), drive.alignmentBytes()),
                new FlushSchedule(session.flushS(), table.streams(), 0),
                clock,
                new DelayLog(),
                drive.alignmentBytes(),
                0);
        long due = loop.step();
        while (due != RecorderLoop.OVER) {
            clock.waitUntil(due);
            due = loop.step();
        }
        ledger.settle(clock.nanoTime());
        figures = ledger.figures(table.lengthNs());
        loop.drain();
        drainMs = Math.max(0, clock.nanoTime() - table.lengthNs()) / 1e6;
    }

    /** From the end of the take until nothing was left in the recorder, in ms. */
    double drainMs() {
        return drainMs;
    }

    /** When the largest backlog was noted, in ns since the take began. */
    long peakAtNs() {
        return figures.totals().peakAtNs();
    }

    double peakMs() {
        return figures.totals().peakMs();
    }

    double busyFraction() {
        return Math.min(1, figures.totals().busyNs() / (double) table.lengthNs());
    }

    /**
     * The take as the judge wants it: {@code run} with what was replayed in place of what was measured.
     *
     * @param allowance factor on backlog, stalls and busy fraction, for what a record does not tell
     */
    PhaseFacts facts(PhaseFacts run, double allowance) {
        TakeFigures.Totals totals = figures.totals();
        List<StreamSpec> streams = session.streams();
        return PhaseFacts.builder(run.kind(), run.startedAt())
                .seconds(run.seconds())
                .plannedSeconds(run.plannedSeconds())
                .complete(run.complete())
                .bytes(totals.writtenBytes())
                .operations(totals.operations())
                .lostMs(figures.worstLostMs())
                .lostTrackMs(IntStream.range(0, streams.size())
                        .mapToDouble(
                                i -> figures.lostMs().get(i) * streams.get(i).tracks())
                        .sum())
                .tracksHit(IntStream.range(0, streams.size())
                        .filter(i -> figures.lostMs().get(i) > 0)
                        .map(i -> streams.get(i).tracks())
                        .sum())
                .peakBacklogMs(totals.peakMs() * allowance)
                .peakBacklogAtS(totals.peakAtNs() / 1e9)
                .busyFraction(Math.min(1, busyFraction() * allowance))
                .stallCount(figures.stallCount())
                .stallTotalMs(figures.stallTotalMs())
                .stalls(figures.stalls().stream()
                        .map(stall -> new Stall(stall.atS(), stall.ms() * allowance, stall.hostMs()))
                        .toList())
                .overruns(figures.overruns())
                .service(Latencies.of(figures.histograms().service()))
                .response(Latencies.of(figures.histograms().response()))
                .flush(Latencies.of(figures.histograms().flush()))
                .series(figures.series())
                .streams(new StreamTotals(
                        figures.doneBytes(),
                        figures.lostMs(),
                        figures.peakBacklogMs(),
                        streams.stream().map(stream -> 1).toList()))
                .device(run.device())
                .hostDelays(run.hostDelays())
                .build();
    }
}

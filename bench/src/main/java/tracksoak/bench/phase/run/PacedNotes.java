package tracksoak.bench.phase.run;

import java.util.stream.IntStream;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.report.record.facts.Latencies;
import tracksoak.report.record.facts.PhaseFacts;

/** Copies the books of a phase in real time into its sheet. */
final class PacedNotes {

    private PacedNotes() {}

    /** Notes everything but the totals per stream. */
    static void paced(PhaseFacts.Builder notes, StreamTable table, TakeFigures figures, long endNs) {
        TakeFigures.Totals totals = figures.totals();
        notes.seconds(endNs / 1e9);
        notes.bytes(totals.writtenBytes());
        notes.operations(totals.operations());
        notes.lostMs(figures.worstLostMs());
        notes.lostTrackMs(lostTrackMs(table, figures));
        notes.tracksHit(IntStream.range(0, table.streams())
                .filter(i -> figures.lostMs().get(i) > 0)
                .map(table::tracks)
                .sum());
        notes.peakBacklogMs(totals.peakMs());
        notes.peakBacklogAtS(totals.peakAtNs() / 1e9);
        notes.peakBacklogHostMs(totals.peakHostNs() / 1e6);
        notes.busyFraction(endNs == 0 ? 0 : Math.min(1, totals.busyNs() / (double) endNs));
        notes.stallCount(figures.stallCount());
        notes.stallTotalMs(figures.stallTotalMs());
        notes.stalls(figures.stalls());
        notes.overruns(figures.overruns());
        notes.service(Latencies.of(figures.histograms().service()));
        notes.response(Latencies.of(figures.histograms().response()));
        notes.flush(Latencies.of(figures.histograms().flush()));
        notes.series(figures.series());
    }

    /** Audio lost, summed over all tracks, in ms. */
    static double lostTrackMs(StreamTable table, TakeFigures figures) {
        return IntStream.range(0, table.streams())
                .mapToDouble(i -> figures.lostMs().get(i) * table.tracks(i))
                .sum();
    }
}

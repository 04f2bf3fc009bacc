package tracksoak.bench.phase.run;

import java.util.stream.IntStream;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.report.record.facts.Latencies;

/** Copies the books of a phase in real time into its sheet. */
final class SheetNotes {

    private SheetNotes() {}

    /** Notes everything but the totals per stream. */
    static void paced(Sheet sheet, StreamTable table, TakeFigures figures, long endNs) {
        TakeFigures.Totals totals = figures.totals();
        sheet.seconds = endNs / 1e9;
        sheet.bytes = totals.writtenBytes();
        sheet.operations = totals.operations();
        sheet.lostMs = figures.worstLostMs();
        sheet.lostTrackMs = IntStream.range(0, table.streams())
                .mapToDouble(i -> figures.lostMs().get(i) * table.tracks(i))
                .sum();
        sheet.tracksHit = IntStream.range(0, table.streams())
                .filter(i -> figures.lostMs().get(i) > 0)
                .map(table::tracks)
                .sum();
        sheet.peakBacklogMs = totals.peakMs();
        sheet.peakBacklogAtS = totals.peakAtNs() / 1e9;
        sheet.peakBacklogHostMs = totals.peakHostNs() / 1e6;
        sheet.busyFraction = endNs == 0 ? 0 : Math.min(1, totals.busyNs() / (double) endNs);
        sheet.stallCount = figures.stallCount();
        sheet.stallTotalMs = figures.stallTotalMs();
        sheet.stalls = figures.stalls();
        sheet.overruns = figures.overruns();
        sheet.service = Latencies.of(figures.histograms().service());
        sheet.response = Latencies.of(figures.histograms().response());
        sheet.flush = Latencies.of(figures.histograms().flush());
        sheet.series = figures.series();
    }
}

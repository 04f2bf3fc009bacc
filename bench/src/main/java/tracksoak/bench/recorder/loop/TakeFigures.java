package tracksoak.bench.recorder.loop;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.HdrHistogram.Histogram;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;

/**
 * What the books of a take say at one moment; nothing in it changes afterwards.
 *
 * @param totals sums and peaks
 * @param doneBytes audio on the drive per stream
 * @param lostMs audio lost per stream in ms
 * @param peakBacklogMs largest backlog per stream in ms of audio
 * @param stallCount stalls, also those not listed
 * @param stallTotalMs their total in ms
 * @param stalls the longest
 * @param overruns those that are over
 * @param histograms of service, response and flush times in ns
 * @param series per second
 */
public record TakeFigures(
        Totals totals,
        List<Long> doneBytes,
        List<Double> lostMs,
        List<Double> peakBacklogMs,
        long stallCount,
        double stallTotalMs,
        List<Stall> stalls,
        List<Overrun> overruns,
        Histograms histograms,
        Series series) {

    /**
     * Sums and peaks of a take.
     *
     * @param writtenBytes on the drive, with padding
     * @param operations write calls that came back
     * @param busyNs time inside calls within the take
     * @param peakMs largest backlog of any stream in ms of audio
     * @param peakAtNs when, since the take began
     * @param peakHostNs the host's share of the wait that made it
     * @param worstServiceMs longest write in ms
     */
    public record Totals(
            long writtenBytes,
            long operations,
            long busyNs,
            double peakMs,
            long peakAtNs,
            long peakHostNs,
            double worstServiceMs) {}

    /** Histograms in ns. */
    public record Histograms(Histogram service, Histogram response, Histogram flush) {}

    static TakeFigures of(
            StreamTable table,
            Totals totals,
            long[] doneBytes,
            long[] lostBytes,
            long[] peakBytes,
            StallMeter stalls,
            List<Overrun> overruns,
            Histograms histograms,
            Series series) {
        return new TakeFigures(
                totals,
                LongStream.of(doneBytes).boxed().toList(),
                millis(table, lostBytes),
                millis(table, peakBytes),
                stalls.count(),
                stalls.totalMs(),
                stalls.listed(),
                overruns,
                histograms,
                series);
    }

    private static List<Double> millis(StreamTable table, long[] bytes) {
        return IntStream.range(0, bytes.length)
                .mapToObj(i -> table.millis(i, bytes[i]))
                .toList();
    }

    /** Audio lost on the worst track in ms. */
    public double worstLostMs() {
        return lostMs.stream().mapToDouble(Double::doubleValue).max().orElse(0);
    }

    /** Streams that have lost audio. */
    public int streamsHit() {
        return (int) lostMs.stream().filter(ms -> ms > 0).count();
    }
}

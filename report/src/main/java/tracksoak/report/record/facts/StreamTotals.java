package tracksoak.report.record.facts;

import java.util.List;

/**
 * Totals per stream, in columns of equal length.
 *
 * @param bytes bytes written
 * @param lostMs audio lost in ms
 * @param peakBacklogMs largest backlog in ms of audio
 * @param files files written
 */
public record StreamTotals(List<Long> bytes, List<Double> lostMs, List<Double> peakBacklogMs, List<Integer> files) {

    public StreamTotals {
        bytes = List.copyOf(bytes);
        lostMs = List.copyOf(lostMs);
        peakBacklogMs = List.copyOf(peakBacklogMs);
        files = List.copyOf(files);
    }
}

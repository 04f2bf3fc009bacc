package tracksoak.report.verdict;

import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Series;

/** How far the recorder fell behind in each second of a take, without what the computer itself was late. Stateless. */
final class Waits {

    private Waits() {}

    /** Largest backlog of each second in ms of audio, the delay of the host meanwhile taken off; empty without a series. */
    static int[] of(PhaseFacts take) {
        Series series = take.series();
        if (series == null) {
            return new int[0];
        }
        // the end of a take may fall within its last second; a part of one is no second
        int seconds = Math.min(series.length(), (int) take.seconds());
        int[] waits = new int[seconds];
        for (int i = 0; i < seconds; i++) {
            int backlog = series.maxBacklogMs().get(i);
            long host = 0;
            for (int j = Math.max(0, i - backlog / 1000 - 1); j <= i && backlog > 0; j++) {
                host += series.hostDelayMs().get(j);
            }
            waits[i] = (int) Math.max(0, backlog - host);
        }
        return waits;
    }
}

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
            waits[i] = (int) Math.max(0, backlog - hostMs(series, i, backlog));
        }
        return waits;
    }

    /** The host's share of a wait that ended in a second: all of that second, and of the one it began in as much as it had. */
    private static double hostMs(Series series, int second, int backlogMs) {
        double host = backlogMs > 0 ? series.hostDelayMs().get(second) : 0;
        int left = backlogMs;
        for (int j = second - 1; j >= 0 && left > 0; j--, left -= 1000) {
            host += series.hostDelayMs().get(j) * Math.min(1, left / 1000.0);
        }
        return host;
    }
}

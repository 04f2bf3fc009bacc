package tracksoak.report.verdict;

import java.util.Arrays;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Series;
import tracksoak.report.stats.ChangePoint;

/**
 * The mean rate of a fill or copy behind its last cliff, or of all of it where there was none: what no pace of writing can
 * exceed for long. A fall counts as a cliff once {@value #BEHIND} rounds were seen behind it (10 min in a plan's own
 * rounds; own limit): flash that is hot, or a slow zone, is behind the drive sooner or later. Of a fill of the whole drive as much
 * counts as the session writes: no show comes to what lies behind that.
 *
 * @param bytes behind it
 * @param seconds they took
 * @param hostS delay of the host meanwhile, in s
 * @param behindCliff whether there was a cliff
 * @param part whether it is that of a part of the fill, as long as the session writes
 */
record FlatRate(double bytes, double seconds, double hostS, boolean behindCliff, boolean part) {

    private static final int BEHIND = 60;
    private static final double MOST_GAIN = 1000;

    /** @param sessionBytes what the session writes */
    static FlatRate of(PhaseFacts phase, FillFacts found, double sessionBytes) {
        Series series = phase.series();
        int whole = series == null ? 0 : Math.min(series.length(), (int) phase.seconds());
        double[] rates = new double[whole];
        int within = whole;
        double sum = 0;
        for (int i = 0; i < whole && series != null; i++) {
            rates[i] = series.kib().get(i) * 1024.0;
            sum += rates[i];
            within = sum >= sessionBytes ? Math.min(within, i + 1) : within;
        }
        boolean part = found.ended() == Ended.FULL && within < whole;
        if (part) {
            whole = within;
            rates = Arrays.copyOf(rates, whole);
        }
        int from = ChangePoint.behindTheLast(rates, (int) Math.ceil(BEHIND * found.roundS()));
        if (series == null || (from == 0 && !part)) {
            return new FlatRate(
                    (double) phase.bytes(),
                    phase.seconds() - phase.unansweredS(),
                    Blame.hostMs(phase) / 1000,
                    false,
                    false);
        }
        double bytes = 0;
        double hostS = 0;
        for (int i = from; i < whole; i++) {
            bytes += rates[i];
            hostS += Math.min(1000, series.hostDelayMs().get(i)) / 1000.0;
        }
        return new FlatRate(bytes, whole - from - phase.unansweredS(), hostS, from > 0, part);
    }

    /** As it was, in B/s. */
    double bytesPerSecond() {
        return seconds <= 0 ? 0 : bytes / seconds;
    }

    /** With the delay of the host meanwhile, and so many ms more, taken off its time, in B/s. */
    double withoutHost(double ms) {
        return seconds <= 0 ? 0 : bytes / Math.max(seconds / MOST_GAIN, seconds - hostS - ms / 1000);
    }
}

package tracksoak.report.verdict;

import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Series;

/** How much higher the floor of a fill could have been without the delays of the host. */
final class FillHost {

    private FillHost() {}

    /**
     * Factor ≥ 1. From the 1 s series: lowest window with the host's delay taken off each window's time ÷ lowest window as
     * it was, over the seconds the floor was taken from. Without a series from the host's delay over the whole fill.
     */
    static double gain(PhaseFacts fill, FillFacts found) {
        Series series = fill.series();
        int window = (int) Math.max(1, Math.round(found.floorWindowS()));
        if (series == null || series.length() < window) {
            double share = fill.seconds() > 0 ? Blame.hostMs(fill) / 1000 / fill.seconds() : 0;
            return 1 / Math.max(1e-3, 1 - share);
        }
        int from = found.steady() ? (int) Math.max(0, series.length() - 5 * Math.round(found.roundS())) : 0;
        from = Math.min(from, series.length() - window);
        double plain = Double.MAX_VALUE;
        double without = Double.MAX_VALUE;
        long kib = 0;
        double hostS = 0;
        for (int i = from; i < series.length(); i++) {
            kib += series.kib().get(i);
            hostS += Math.min(1000, series.hostDelayMs().get(i)) / 1000.0;
            if (i - from >= window) {
                kib -= series.kib().get(i - window);
                hostS -= Math.min(1000, series.hostDelayMs().get(i - window)) / 1000.0;
            }
            if (i - from >= window - 1) {
                plain = Math.min(plain, (double) kib / window);
                without = Math.min(without, kib / Math.max(1e-3, window - hostS));
            }
        }
        return plain <= 0 ? 1 : Math.max(1, without / plain);
    }
}

package tracksoak.report.stats;

import java.util.ArrayList;
import java.util.List;

/**
 * Peaks of a series that do not belong together: runs declustering (Coles 2001, §5.3.2). A peak is the largest value of an
 * excursion above a threshold; an excursion ends once {@code gap} entries in a row are not above it. Stateless.
 */
public final class Peaks {

    private Peaks() {}

    /**
     * One peak.
     *
     * @param at where its largest value is, from 0
     * @param value that value
     */
    public record Peak(int at, int value) {}

    /**
     * The peaks above a threshold, in order.
     *
     * @param gap entries at or below the threshold that end an excursion, at least 1
     */
    public static List<Peak> above(int[] series, int threshold, int gap) {
        if (gap < 1) {
            throw new IllegalArgumentException("the gap is " + gap + ", at least 1 entry must part two peaks");
        }
        List<Peak> peaks = new ArrayList<>();
        int best = -1;
        int quiet = 0;
        for (int i = 0; i < series.length; i++) {
            if (series[i] > threshold) {
                best = best < 0 || series[i] > series[best] ? i : best;
                quiet = 0;
            } else if (best >= 0 && ++quiet == gap) {
                peaks.add(new Peak(best, series[best]));
                best = -1;
                quiet = 0;
            }
        }
        if (best >= 0) {
            peaks.add(new Peak(best, series[best]));
        }
        return peaks;
    }
}

package tracksoak.report.stats;

import java.util.List;

/**
 * Whether peaks come as if nothing changed meanwhile. Three questions, each with the chance of being answered so clearly if
 * nothing does: whether they get larger or smaller ({@link Trend}, both ways), whether they come more or less often (Laplace's
 * test on their times: Cox and Lewis 1966, from memory), and whether they come in bunches (counts in equal spans scatter
 * more than a Poisson's: index of dispersion, Fisher 1925, with the cube root of Wilson and Hilferty 1931, from memory).
 *
 * @param sizes chance of the sizes' trend
 * @param times chance of the rate's trend
 * @param bunches chance of the bunches
 */
public record PeakOrder(double sizes, double times, double bunches) {

    private static final int PER_SPAN = 5;
    private static final int LEAST_SPANS = 4;
    private static final int MOST_SPANS = 30;

    /**
     * Looks at peaks.
     *
     * @param length entries watched
     */
    public static PeakOrder of(List<Peaks.Peak> peaks, int length) {
        double[] at = peaks.stream().mapToDouble(Peaks.Peak::at).toArray();
        double[] values = peaks.stream().mapToDouble(Peaks.Peak::value).toArray();
        Trend trend = Trend.of(at, values);
        return new PeakOrder(
                Math.min(1, 2 * Math.min(trend.fallsByChance(), trend.risesByChance())),
                times(at, length),
                bunches(at, length));
    }

    /** The three, fit to be compared with one level though three questions were asked (Holm). */
    public PeakOrder together() {
        double[] all = Trend.together(new double[] {sizes, times, bunches});
        return new PeakOrder(all[0], all[1], all[2]);
    }

    private static double times(double[] at, int length) {
        double sum = 0;
        for (double each : at) {
            sum += each + 0.5;
        }
        double z = (sum / at.length / length - 0.5) * Math.sqrt(12.0 * at.length);
        return Math.min(1, 2 * Concordance.normalAtMost(-Math.abs(z)));
    }

    private static double bunches(double[] at, int length) {
        int spans = Math.max(LEAST_SPANS, Math.min(MOST_SPANS, at.length / PER_SPAN));
        int[] counts = new int[spans];
        for (double each : at) {
            counts[(int) (each * spans / length)]++;
        }
        double mean = (double) at.length / spans;
        double scatter = 0;
        for (int count : counts) {
            scatter += (count - mean) * (count - mean) / mean;
        }
        int free = spans - 1;
        double part = 2.0 / (9 * free);
        return Concordance.normalAtMost(-(Math.cbrt(scatter / free) - (1 - part)) / Math.sqrt(part));
    }
}

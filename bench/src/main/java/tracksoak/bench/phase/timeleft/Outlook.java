package tracksoak.bench.phase.timeleft;

import java.util.Arrays;

/**
 * How long a fill, a copy or a read-back that goes on will take for what is left of it, for the time left that is shown and
 * for nothing else. One thread.
 */
public final class Outlook {

    /** Until then what was seen of the drive before counts too, the less the longer the phase goes on, in s. */
    private static final double SETTLED_S = 60;

    private static final int PARTS = 4;
    private static final double MOST_UNEVEN = 3;

    private final DiskShape shape;
    private final double expectedRate;

    /**
     * A phase about to start.
     *
     * @param shape how the rate changes with the place
     * @param expectedSeconds time for one byte by what was seen before, in s; not positive if nothing was
     */
    public Outlook(DiskShape shape, double expectedSeconds) {
        this.shape = shape;
        this.expectedRate = expectedSeconds > 0 ? 1 / expectedSeconds : 0;
    }

    /**
     * The rate to count on, in B/s: in the first minute what was expected weighs in.
     *
     * @param rate seen so far, in B/s
     * @param elapsedS since the phase began, in s
     */
    public double settled(double rate, double elapsedS) {
        double known = expectedRate <= 0 ? 1 : Math.min(1, elapsedS / SETTLED_S);
        return known * rate + (1 - known) * expectedRate;
    }

    /**
     * Time for more bytes, in s, or {@link Pace#UNKNOWN}.
     *
     * @param from where the rate was seen from, in bytes since the phase began
     * @param to where it stands
     * @param more bytes to come
     * @param rate seen between these two, settled, in B/s
     * @param slowing by how much a byte takes longer for each byte further on, in s/B²; see {@link #slowing}
     */
    public double secondsFor(double from, double to, double more, double rate, double slowing) {
        if (more <= 0) {
            return 0;
        }
        if (rate <= 0) {
            return Pace.UNKNOWN;
        }
        if (!shape.equals(DiskShape.EVEN)) {
            return more / rate * shape.slowness(to, to + more) / shape.slowness(from, to);
        }
        return more * (1 / rate + slowing * (to + more - from) / 2);
    }

    /**
     * How many times as long a byte takes at the end of a phase as at its beginning, on a drive that gets slower all the time; 1 where it does not,
     * and on a disk whose rate hangs on the place.
     *
     * @param at where the rate was seen, in bytes since the phase began
     * @param rate seen there, settled, in B/s
     * @param end of the phase, in bytes
     * @param slowing see {@link #slowing}
     */
    public double wear(double at, double rate, double end, double slowing) {
        double first = rate <= 0 ? 0 : 1 / rate - slowing * at;
        boolean wears = slowing > 0 && first > 0 && shape.equals(DiskShape.EVEN);
        return wears ? 1 + slowing * end / first : 1;
    }

    /**
     * By how much a byte takes longer for each byte further on, in s/B²: the least by which any of four equal times is slower
     * than the one before; 0 where the largest such step is more than twice that. So a drive that slows down all the time shows it, and one
     * that fell once or wavers does not.
     *
     * @param rates mean rates of equal times, in order, in B/s
     * @param roundS length of one such time in s
     */
    public static double slowing(double[] rates, double roundS) {
        int each = rates.length / PARTS;
        if (each == 0) {
            return 0;
        }
        double partS = each * roundS;
        double least = Double.MAX_VALUE;
        double most = 0;
        double before = 0;
        for (int part = 0; part < PARTS; part++) {
            int from = rates.length - (PARTS - part) * each;
            double bytes = Arrays.stream(rates, from, from + each).sum() * roundS;
            if (bytes <= 0) {
                return 0;
            }
            if (part > 0) {
                double step = (partS / bytes - partS / before) / ((bytes + before) / 2);
                least = Math.min(least, step);
                most = Math.max(most, step);
            }
            before = bytes;
        }
        return most > MOST_UNEVEN * least ? 0 : Math.max(0, least);
    }
}

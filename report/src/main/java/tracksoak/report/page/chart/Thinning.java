package tracksoak.report.page.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Which entries of a long series to keep so that its extremes stay. */
public final class Thinning {

    private Thinning() {}

    /**
     * Indices that keep the largest value of each of at most {@code most} equal spans, rising.
     *
     * @param values the series
     * @param most most indices, at least 1
     */
    public static int[] peaks(double[] values, int most) {
        if (values.length <= most) {
            return IntStream.range(0, values.length).toArray();
        }
        int[] kept = new int[most];
        for (int span = 0; span < most; span++) {
            kept[span] = extreme(values, start(span, most, values), start(span + 1, most, values), 1);
        }
        return kept;
    }

    /** The same with the smallest and the largest value of each of at most {@code most / 2} spans. */
    public static int[] extremes(double[] values, int most) {
        if (values.length <= most) {
            return IntStream.range(0, values.length).toArray();
        }
        int spans = most / 2;
        List<Integer> kept = new ArrayList<>();
        for (int span = 0; span < spans; span++) {
            int from = start(span, spans, values);
            int to = start(span + 1, spans, values);
            int low = extreme(values, from, to, -1);
            int high = extreme(values, from, to, 1);
            kept.add(Math.min(low, high));
            if (low != high) {
                kept.add(Math.max(low, high));
            }
        }
        return kept.stream().mapToInt(Integer::intValue).toArray();
    }

    /** Largest of {@code values} in {@code [from, to)}. */
    public static double highest(double[] values, int from, int to) {
        return values[extreme(values, from, to, 1)];
    }

    /** Smallest of {@code values} in {@code [from, to)}. */
    public static double lowest(double[] values, int from, int to) {
        return values[extreme(values, from, to, -1)];
    }

    /** First index of span {@code span} of {@code spans}. */
    public static int start(int span, int spans, double[] values) {
        return (int) ((long) span * values.length / spans);
    }

    private static int extreme(double[] values, int from, int to, int sign) {
        int best = from;
        for (int i = from + 1; i < to; i++) {
            if (sign * values[i] > sign * values[best]) {
                best = i;
            }
        }
        return best;
    }
}

package tracksoak.report.stats;

import java.util.Arrays;
import java.util.Comparator;
import java.util.PriorityQueue;

/** Medians of growing prefixes, in n log n. */
final class RunningMedian {

    private final PriorityQueue<Double> low = new PriorityQueue<>(Comparator.reverseOrder());
    private final PriorityQueue<Double> high = new PriorityQueue<>();
    private double lowSum;
    private double highSum;

    private RunningMedian() {}

    /** Entry k is the sum of distances of the first k values to their median. */
    static double[] costs(double[] values) {
        RunningMedian running = new RunningMedian();
        double[] costs = new double[values.length + 1];
        for (int i = 0; i < values.length; i++) {
            costs[i + 1] = running.add(values[i]);
        }
        return costs;
    }

    /** Median of {@code values[from…to)}; the mean of the middle two for an even number. */
    static double of(double[] values, int from, int to) {
        double[] sorted = Arrays.copyOfRange(values, from, to);
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }

    private double add(double value) {
        low.add(value);
        lowSum += value;
        double moved = low.remove();
        lowSum -= moved;
        high.add(moved);
        highSum += moved;
        if (high.size() > low.size()) {
            double back = high.remove();
            highSum -= back;
            low.add(back);
            lowSum += back;
        }
        double odd = low.size() > high.size() ? low.element() : 0;
        return Math.max(0, highSum - lowSum + odd);
    }
}

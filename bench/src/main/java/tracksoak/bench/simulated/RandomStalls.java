package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Stops working now and then for as long as chance has it: pauses come at exponential intervals, their lengths follow a
 * Pareto law with an upper bound, most near the least and few far longer. That garbage collection comes unannounced and
 * has a long tail is common practice, no source.
 *
 * @param meanGapNs mean time from the end of one stall to the start of the next, in ns
 * @param leastNs shortest stall in ns
 * @param mostNs longest stall in ns
 * @param tail exponent of the Pareto law; the smaller, the longer the tail
 */
public record RandomStalls(long meanGapNs, long leastNs, long mostNs, double tail) implements Behaviour {

    public RandomStalls {
        new Limits()
                .time("mean_gap", meanGapNs, 1_000_000, Call.LONGEST_NS)
                .time("least", leastNs, 1, mostNs)
                .time("most", mostNs)
                .number("tail", tail, 0.1, 100)
                .hold();
    }

    @Override
    public String says() {
        return "stops for " + FigureText.time(leastNs) + " to " + FigureText.time(mostNs) + " every "
                + FigureText.time(meanGapNs) + " on average";
    }

    @Override
    public Effect start(SplittableRandom random) {
        Windows windows = new Windows() {
            @Override
            void next(long afterNs) {
                long startNs = afterNs + exponential(random);
                set(startNs, startNs + pareto(random));
            }
        };
        windows.next(0);
        return new Windows.Slow(windows, 0);
    }

    private long exponential(SplittableRandom random) {
        return 1 + (long) (-StrictMath.log(1 - random.nextDouble()) * (double) meanGapNs);
    }

    private long pareto(SplittableRandom random) {
        double length = (double) leastNs * StrictMath.pow(1 - random.nextDouble(), -1 / tail);
        return (long) Math.min((double) mostNs, length);
    }
}

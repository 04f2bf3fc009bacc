package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Stops working for a while at a fixed interval, as flash does that tidies up by the clock. Closed form for a demand R
 * against a rate C: peak backlog R·T, drained R·T ÷ (C − R) after the stall of length T.
 *
 * @param firstNs when the first stall begins, in ns after the drive is plugged in
 * @param everyNs from the start of one stall to the start of the next, in ns
 * @param lengthNs length of a stall in ns
 */
public record PeriodicStalls(long firstNs, long everyNs, long lengthNs) implements Behaviour {

    public PeriodicStalls {
        new Limits()
                .time("first", firstNs)
                .time("every", everyNs, 1_000_000, Call.LONGEST_NS)
                .time("length", lengthNs, 1, everyNs - 1)
                .hold();
    }

    @Override
    public String says() {
        return "stops for " + FigureText.time(lengthNs) + " every " + FigureText.time(everyNs);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Windows.Slow(Windows.periodic(firstNs, everyNs, lengthNs), 0);
    }
}

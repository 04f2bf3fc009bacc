package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Shares its port with another device that now and then takes its part. Closed form: a call of work w that lies wholly
 * inside such a time takes w × 1000 ÷ left.
 *
 * @param firstNs when the other first works, in ns after the drive is plugged in
 * @param everyNs from the start of one such time to the start of the next, in ns
 * @param lengthNs how long the other works, in ns
 * @param leftPermille speed left meanwhile, in thousandths
 */
public record SharedBus(long firstNs, long everyNs, long lengthNs, int leftPermille) implements Behaviour {

    public SharedBus {
        new Limits()
                .time("first", firstNs)
                .time("every", everyNs, 1_000_000, Call.LONGEST_NS)
                .time("length", lengthNs, 1, everyNs - 1)
                .share("left", leftPermille, 1, 1000)
                .hold();
    }

    @Override
    public String says() {
        return "has " + leftPermille / 10 + " % of its speed for " + FigureText.time(lengthNs) + " every "
                + FigureText.time(everyNs) + " because another device uses the port";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Windows.Slow(Windows.periodic(firstNs, everyNs, lengthNs), leftPermille);
    }
}

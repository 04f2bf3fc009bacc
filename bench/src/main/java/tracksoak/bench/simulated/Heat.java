package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Throttles when hot. Every byte written warms the drive, and it cools all the time at a constant pace, so heat is
 * counted in bytes: a leaky bucket. Closed forms: at rate F the drive is hot after hot ÷ (F − cooling), and throttled to
 * f below the cooling it recovers after (hot − cool) ÷ (cooling − f). That small drives throttle after sustained writing
 * is common practice, no source.
 *
 * @param hotBytes heat at which it throttles, in bytes
 * @param coolBytes heat at which it recovers, in bytes
 * @param coolingBytesPerSecond rate of writing it can bear for ever, in B/s
 * @param throttledPermille speed while throttled, in thousandths
 */
public record Heat(long hotBytes, long coolBytes, long coolingBytesPerSecond, int throttledPermille)
        implements Behaviour {

    public Heat {
        new Limits()
                .bytes("hot", hotBytes, 4096, Limits.MOST_BYTES)
                .bytes("cool", coolBytes, 0, hotBytes - 1)
                .rate("cooling", coolingBytesPerSecond)
                .share("throttled", throttledPermille, 1, 1000)
                .hold();
    }

    @Override
    public String says() {
        return "throttles to " + throttledPermille / 10 + " % when more than " + FigureText.rate(coolingBytesPerSecond)
                + " has made it hot, until it has cooled";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new State();
    }

    private final class State implements Effect {

        private long heatBytes;
        private long lastNs;
        private boolean throttled;

        @Override
        public void shape(Call call) {
            long gone = Rates.bytes(call.startNs() - lastNs, coolingBytesPerSecond);
            heatBytes = Math.max(0, heatBytes - gone);
            lastNs = call.startNs();
            throttled = throttled ? heatBytes > coolBytes : heatBytes >= hotBytes;
            if (throttled) {
                call.take(call.serviceNs() * 1000 / throttledPermille);
            }
            if (call.isWrite()) {
                heatBytes += call.bytes();
            }
        }
    }
}

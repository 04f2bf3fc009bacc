package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Does not hold its charge: of the blocks written before a moment, one in so many comes back flipped from that moment on,
 * always the same ones. (How long cells must hold is JESD218's subject: client drives one year at 30 °C at the end of
 * their rated life.)
 *
 * @param afterNs moment at which they fade, in ns since the drive's clock began
 * @param oneIn blocks among which one fades, on average
 */
public record Fading(long afterNs, int oneIn) implements Behaviour {

    public Fading {
        new Limits()
                .time("after", afterNs, 0, Limits.NEVER)
                .oneIn("one_in", oneIn)
                .hold();
    }

    @Override
    public String says() {
        return "loses one in " + oneIn + " blocks with time";
    }

    @Override
    public Effect start(SplittableRandom random) {
        long seed = random.nextLong();
        return new Effect() {
            private long nowNs;
            private int lastOld = -1;

            @Override
            public void shape(Call call) {
                nowNs = call.startNs();
            }

            @Override
            public boolean lies() {
                return true;
            }

            @Override
            public void wrote(int first, int blocks, int done, int whole) {
                if (nowNs < afterNs) {
                    lastOld = Math.max(lastOld, first + blocks - 1);
                }
            }

            @Override
            public void look(Seen seen) {
                if (nowNs >= afterNs && seen.block() <= lastOld && Rates.picks(seed, seen.block(), oneIn)) {
                    seen.showFlipped();
                }
            }
        };
    }
}

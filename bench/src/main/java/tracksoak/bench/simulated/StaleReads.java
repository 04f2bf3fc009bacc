package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Loses its own bookkeeping now and then: one of so many blocks, always the same ones, shows what lay there before the
 * last write. Seen on flash after power cuts (common practice, no source).
 *
 * @param oneIn blocks among which one is stale, on average
 */
public record StaleReads(int oneIn) implements Behaviour {

    public StaleReads {
        new Limits().oneIn("one_in", oneIn).hold();
    }

    @Override
    public String says() {
        return "shows an old version of one of " + oneIn + " blocks of 4 KiB";
    }

    @Override
    public Effect start(SplittableRandom random) {
        long seed = random.nextLong();
        return new Effect() {
            @Override
            public boolean lies() {
                return true;
            }

            @Override
            public void look(Seen seen) {
                if (Rates.picks(seed, seen.block(), oneIn)) {
                    seen.showStale();
                }
            }
        };
    }
}

package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Has weak cells: in one of so many blocks, always the same ones, a bit comes back flipped.
 *
 * @param oneIn blocks among which one is weak, on average
 */
public record BitFlips(int oneIn) implements Behaviour {

    public BitFlips {
        new Limits().oneIn("one_in", oneIn).hold();
    }

    @Override
    public String says() {
        return "flips a bit in one of " + oneIn + " blocks of 4 KiB";
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
                    seen.showFlipped();
                }
            }
        };
    }
}

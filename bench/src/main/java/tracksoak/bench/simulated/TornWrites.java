package tracksoak.bench.simulated;

import java.util.BitSet;
import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Reports some writes done of which only the first part was kept: in one write of so many the second half, or the only
 * block, reads as zeros. A block size larger than the drive's own is not written in one go (common practice, no source).
 *
 * @param oneIn writes among which one is torn, on average
 */
public record TornWrites(int oneIn) implements Behaviour {

    public TornWrites {
        new Limits().oneIn("one_in", oneIn).hold();
    }

    @Override
    public String says() {
        return "keeps only the first half of one write in " + oneIn;
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new State(random.nextLong());
    }

    private final class State implements Effect {

        private final long seed;
        private final BitSet lost = new BitSet();
        private long writes;
        private boolean torn;

        State(long seed) {
            this.seed = seed;
        }

        @Override
        public boolean lies() {
            return true;
        }

        @Override
        public void wrote(int first, int blocks, int done, int whole) {
            if (done == 0) {
                torn = Rates.picks(seed, writes++, oneIn);
            }
            int kept = torn ? Math.max(0, Math.min(blocks, whole / 2 - done)) : blocks;
            lost.clear(first, first + kept);
            lost.set(first + kept, first + blocks);
        }

        @Override
        public void look(Seen seen) {
            if (lost.get(seen.block())) {
                seen.showZeros();
            }
        }
    }
}

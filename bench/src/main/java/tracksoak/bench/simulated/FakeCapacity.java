package tracksoak.bench.simulated;

import java.util.Arrays;
import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Claims more room than it has. Up to its real size it tells the truth; past that it writes over its beginning, drops
 * what it is given and keeps showing what lay there before, or shows zeros. Fake drives of these kinds are common
 * practice, no source.
 *
 * @param realBytes room there really is, in bytes
 * @param past what becomes of blocks past it
 */
public record FakeCapacity(long realBytes, Past past) implements Behaviour {

    /** What becomes of blocks past the real size. */
    public enum Past {
        /** The address wraps: they overwrite the beginning. */
        WRAPS,
        /** They are dropped, and what was there before shows. */
        DROPS,
        /** They are dropped, and zeros show. */
        ZEROS
    }

    public FakeCapacity {
        new Limits()
                .bytes("real", realBytes, SimulatedDrive.BLOCK, DriveModel.MOST_BYTES)
                .hold();
    }

    @Override
    public String says() {
        return "has only " + FigureText.bytes(realBytes)
                + switch (past) {
                    case WRAPS -> " and writes over its beginning past that";
                    case DROPS -> " and drops what is written past that";
                    case ZEROS -> " and shows zeros past that";
                };
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new State();
    }

    private final class State implements Effect {

        private final int realBlocks = Math.toIntExact(realBytes / SimulatedDrive.BLOCK);
        /** For each real block 1 + the block last written to it, 0 for none. */
        private int[] lastWritten = new int[0];

        @Override
        public boolean lies() {
            return true;
        }

        @Override
        public void wrote(int first, int blocks, int done, int whole) {
            if (past != Past.WRAPS) {
                return;
            }
            int needed = Math.min(realBlocks, first + blocks);
            if (lastWritten.length < needed) {
                lastWritten = Arrays.copyOf(lastWritten, (int)
                        Math.min(realBlocks, Math.max(needed, 1024L + lastWritten.length * 2L)));
            }
            for (int block = first; block < first + blocks; block++) {
                lastWritten[block % realBlocks] = block + 1;
            }
        }

        @Override
        public void look(Seen seen) {
            int block = seen.block();
            switch (past) {
                case WRAPS -> {
                    int at = block % realBlocks;
                    if (at < lastWritten.length && lastWritten[at] > 0) {
                        seen.showInstead(lastWritten[at] - 1);
                    } else {
                        seen.showZeros();
                    }
                }
                case DROPS -> {
                    if (block >= realBlocks) {
                        seen.showStale();
                    }
                }
                case ZEROS -> {
                    if (block >= realBlocks) {
                        seen.showZeros();
                    }
                }
            }
        }
    }
}

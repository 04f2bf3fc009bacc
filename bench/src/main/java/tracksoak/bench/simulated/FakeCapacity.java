package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.medium.LastWritten;

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
        private final LastWritten lastWritten = new LastWritten();

        @Override
        public boolean lies() {
            return true;
        }

        @Override
        public void wrote(int first, int blocks, int done, int whole) {
            if (past != Past.WRAPS) {
                return;
            }
            for (int block = first; block < first + blocks; ) {
                int at = block % realBlocks;
                int piece = Math.min(first + blocks - block, realBlocks - at);
                lastWritten.wrote(at, piece, block);
                block += piece;
            }
        }

        @Override
        public void look(Seen seen) {
            int block = seen.block();
            switch (past) {
                case WRAPS -> {
                    int last = lastWritten.at(block % realBlocks);
                    if (last >= 0) {
                        seen.showInstead(last);
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

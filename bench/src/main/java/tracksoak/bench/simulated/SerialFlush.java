package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Takes writes into a small memory of its own and pays for them at the next flush, when everything else waits. Closed
 * form: a flush takes fixed + bytes since the last one, at most what the memory holds, ÷ rate; once that is full, writes
 * pay at that rate too. From memory; common with cheap sticks.
 *
 * <p>The memory is volatile: what waits in it when the drive is unplugged is lost, the oldest writes having left it first
 * (own model; that drives lose what they had confirmed up to 700 ms before is known: FAST'13, second-hand).
 *
 * @param fixedNs time of every flush in ns
 * @param rateBytesPerSecond rate at which what waits is written, in B/s
 * @param holdsBytes size of the memory in bytes
 */
public record SerialFlush(long fixedNs, long rateBytesPerSecond, long holdsBytes) implements Behaviour {

    public SerialFlush {
        new Limits()
                .time("fixed", fixedNs)
                .rate("rate", rateBytesPerSecond)
                .bytes("holds", holdsBytes, 0, Limits.MOST_BYTES)
                .hold();
    }

    @Override
    public String says() {
        return "writes what waits at " + FigureText.rate(rateBytesPerSecond)
                + " on every flush while all else stands still";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private long waitingBytes;
            private final WaitingBlocks waiting = new WaitingBlocks();

            @Override
            public void shape(Call call) {
                switch (call.kind()) {
                    case WRITE -> {
                        long tooMuch = Math.max(0, waitingBytes + call.bytes() - holdsBytes);
                        waitingBytes += call.bytes() - tooMuch;
                        call.add(Rates.ns(tooMuch, rateBytesPerSecond));
                    }
                    case FLUSH, SYNC_FOLDER -> {
                        call.add(fixedNs + Rates.ns(waitingBytes, rateBytesPerSecond));
                        waitingBytes = 0;
                        waiting.keep(0);
                    }
                    case READ, EXTEND, CREATE, OPEN, CLOSE, DELETE -> {}
                }
            }

            @Override
            public boolean lies() {
                return true;
            }

            @Override
            public void wrote(int first, int blocks, int done, int whole) {
                waiting.wrote(first, blocks);
                waiting.keep(holdsBytes);
            }

            @Override
            public void pluggedInAgain() {
                waitingBytes = 0;
                waiting.lose();
            }

            @Override
            public boolean forgot(int block) {
                return waiting.lost(block);
            }

            @Override
            public void look(Seen seen) {
                if (waiting.lost(seen.block())) {
                    seen.showZeros();
                }
            }
        };
    }
}

package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * A second cliff behind the first: a drive that folds its fast cache into slow memory for a while, and works at a part of
 * that speed once this too is full (common practice, no source). What it holds back drains while the drive is idle. Closed
 * form: written without a pause, the first call past so many bytes, and each one after it, takes 1000 ÷ left as long.
 *
 * @param afterBytes bytes it takes at full speed
 * @param leftPermille speed behind the cliff, in thousandths
 * @param drainBytesPerSecond rate at which what it holds drains while the drive is idle, in B/s
 */
public record SecondCliff(long afterBytes, int leftPermille, long drainBytesPerSecond) implements Behaviour {

    public SecondCliff {
        new Limits()
                .bytes("after", afterBytes, 0, Limits.MOST_BYTES)
                .share("left", leftPermille, 1, 1000)
                .rate("drain", drainBytesPerSecond, 0, 9_000_000_000L)
                .hold();
    }

    @Override
    public String says() {
        return "falls to " + FigureText.share(leftPermille) + " of its speed after " + FigureText.bytes(afterBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private long heldBytes;

            @Override
            public void shape(Call call) {
                heldBytes = Math.max(0, heldBytes - Rates.bytes(call.idleNs(), drainBytesPerSecond));
                if (!call.isWrite()) {
                    return;
                }
                if (heldBytes + call.bytes() > afterBytes) {
                    call.take(call.serviceNs() * 1000 / leftPermille);
                } else {
                    heldBytes += call.bytes();
                }
            }
        };
    }
}

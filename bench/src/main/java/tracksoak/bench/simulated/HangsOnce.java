package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Hangs once in a single write, then comes back as if nothing had been.
 *
 * @param afterBytes bytes written before that
 * @param lengthNs how long the write takes longer, in ns
 */
public record HangsOnce(long afterBytes, long lengthNs) implements Behaviour {

    public HangsOnce {
        new Limits()
                .bytes("after", afterBytes, 0, Limits.NEVER)
                .time("length", lengthNs)
                .hold();
    }

    @Override
    public String says() {
        return "hangs once for " + FigureText.time(lengthNs) + " after " + FigureText.bytes(afterBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private boolean done;

            @Override
            public void shape(Call call) {
                if (!done && call.isWrite() && call.writtenBytes() + call.bytes() > afterBytes) {
                    done = true;
                    call.add(lengthNs);
                }
            }
        };
    }
}

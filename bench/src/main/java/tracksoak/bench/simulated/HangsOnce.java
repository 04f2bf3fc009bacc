package tracksoak.bench.simulated;

import java.util.SplittableRandom;

/**
 * Hangs once in a single write, then comes back as if nothing had been.
 *
 * @param afterBytes bytes written before that
 * @param lengthNs how long the write takes longer, in ns
 */
public record HangsOnce(long afterBytes, long lengthNs) implements Behaviour {

    public HangsOnce {
        Rates.within("bytes before hanging", afterBytes, 0, Long.MAX_VALUE);
        Rates.time("hang in ns", lengthNs);
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

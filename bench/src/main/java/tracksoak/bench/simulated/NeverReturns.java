package tracksoak.bench.simulated;

import java.util.SplittableRandom;

/**
 * Takes a write and never comes back from it.
 *
 * @param afterBytes bytes written before that
 */
public record NeverReturns(long afterBytes) implements Behaviour {

    public NeverReturns {
        Rates.within("bytes before hanging", afterBytes, 0, Long.MAX_VALUE);
    }

    @Override
    public String says() {
        return "never comes back from a write after " + FigureText.bytes(afterBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                if (call.isWrite() && call.writtenBytes() + call.bytes() > afterBytes) {
                    call.neverReturn();
                }
            }
        };
    }
}

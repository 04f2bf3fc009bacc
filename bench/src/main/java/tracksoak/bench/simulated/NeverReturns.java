package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Takes a write and never comes back from it.
 *
 * @param afterBytes bytes written before that
 */
public record NeverReturns(long afterBytes) implements Behaviour {

    public NeverReturns {
        new Limits().bytes("after", afterBytes, 0, Limits.NEVER).hold();
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

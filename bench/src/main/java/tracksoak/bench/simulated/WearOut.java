package tracksoak.bench.simulated;

import java.io.IOException;
import java.util.SplittableRandom;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Protects itself from writing when worn out; what is on it can still be read. (exFAT knows this state as "media
 * failure", Microsoft exFAT specification 1.00, §3.1.13; that flash ends so is common practice.)
 *
 * @param afterBytes bytes written after which it takes no more
 */
public record WearOut(long afterBytes) implements Behaviour {

    private static final long ERROR_NS = 1_000_000;

    public WearOut {
        new Limits().bytes("after", afterBytes, 0, Limits.NEVER).hold();
    }

    @Override
    public String says() {
        return "turns read-only after " + FigureText.bytes(afterBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) throws IOException {
                if (call.isWrite() && call.writtenBytes() + call.bytes() > afterBytes) {
                    call.refuse(Presence.READ_ONLY, ERROR_NS, "the simulated drive takes no more writes");
                }
            }
        };
    }
}

package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Is pulled out, or falls off the bus, in the middle of the work: the call then under way fails after 100 ms (an error
 * came within 1 to 103 ms on Linux, own measurement), and so does every call after it.
 *
 * @param afterBytes bytes written after which it goes, {@link Long#MAX_VALUE} for never
 * @param atNs time after plugging in when it goes, in ns, {@link Long#MAX_VALUE} for never
 */
public record Removal(long afterBytes, long atNs) implements Behaviour {

    /** How long the call under way takes to fail, in ns. */
    static final long ERROR_NS = 100_000_000;

    public Removal {
        new Limits()
                .bytes("after", afterBytes, 0, Limits.NEVER)
                .time("at", atNs, 0, Limits.NEVER)
                .hold();
    }

    @Override
    public String says() {
        return "vanishes after "
                + (afterBytes < Long.MAX_VALUE ? FigureText.bytes(afterBytes) : FigureText.time(atNs) + " of work");
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private long pluggedAtNs = -1;
            private boolean done;

            @Override
            public void shape(Call call) throws java.io.IOException {
                if (pluggedAtNs < 0) {
                    pluggedAtNs = call.startNs() - call.idleNs();
                }
                long endNs = call.startNs() - pluggedAtNs + call.serviceNs();
                boolean due = call.writtenBytes() + (call.isWrite() ? call.bytes() : 0) > afterBytes || endNs > atNs;
                if (due && !done) {
                    call.refuse(Presence.GONE, ERROR_NS, "the simulated drive was pulled out");
                }
            }

            @Override
            public void pluggedInAgain() {
                done = true;
            }
        };
    }
}

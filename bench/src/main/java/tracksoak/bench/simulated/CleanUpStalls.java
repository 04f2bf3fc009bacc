package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Stops for a while after every so many bytes, as flash does that has to free a block before it can write on: garbage
 * collection driven by writing, not by the clock (common practice, no source). Closed form: mean time per byte grows by
 * length ÷ interval.
 *
 * @param everyBytes bytes from one stop to the next
 * @param lengthNs length of a stop in ns
 */
public record CleanUpStalls(long everyBytes, long lengthNs) implements Behaviour {

    public CleanUpStalls {
        new Limits()
                .bytes("every", everyBytes, 4096, Limits.MOST_BYTES)
                .time("length", lengthNs)
                .hold();
    }

    @Override
    public String says() {
        return "stops for " + FigureText.time(lengthNs) + " after every " + FigureText.bytes(everyBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private long sinceBytes;

            @Override
            public void shape(Call call) {
                if (!call.isWrite()) {
                    return;
                }
                sinceBytes += call.bytes();
                while (sinceBytes >= everyBytes) {
                    sinceBytes -= everyBytes;
                    call.add(lengthNs);
                }
            }
        };
    }
}

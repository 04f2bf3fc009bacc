package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Has zones that are slower than the rest, for writes and reads alike: the last part of every stretch of its addresses, as
 * with dies of unequal quality (own model). Closed form: of a whole stretch written once, length ÷ every of the bytes take
 * 1000 ÷ left as long.
 *
 * @param everyBytes a stretch of addresses, from one zone's end to the next one's end, in bytes
 * @param lengthBytes the slow zone at the end of each, in bytes
 * @param leftPermille speed in it, in thousandths
 */
public record SlowZones(long everyBytes, long lengthBytes, int leftPermille) implements Behaviour {

    public SlowZones {
        new Limits()
                .bytes("every", everyBytes, 8192, Limits.MOST_BYTES)
                .bytes("length", lengthBytes, 4096, everyBytes - 1)
                .share("left", leftPermille, 1, 1000)
                .hold();
    }

    @Override
    public String says() {
        return "has " + FigureText.share(leftPermille) + " of its speed in the last " + FigureText.bytes(lengthBytes)
                + " of every " + FigureText.bytes(everyBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                if (call.bytes() > 0 && call.address() % everyBytes >= everyBytes - lengthBytes) {
                    call.take(call.serviceNs() * 1000 / leftPermille);
                }
            }
        };
    }
}

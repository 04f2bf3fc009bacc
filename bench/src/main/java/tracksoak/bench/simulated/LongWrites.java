package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Takes long for each of some writes in a row after every so many bytes, as flash does that tidies a piece at a time and answers in between:
 * each write within what cards are allowed, all of them together a hole (common practice, no source). Closed form: mean time per byte grows
 * by writes × length ÷ interval.
 *
 * @param everyBytes bytes from the beginning of one such row to that of the next
 * @param writes how many writes are long
 * @param lengthNs what each of them takes longer, in ns
 */
public record LongWrites(long everyBytes, int writes, long lengthNs) implements Behaviour {

    public LongWrites {
        new Limits()
                .bytes("every", everyBytes, 4096, Limits.MOST_BYTES)
                .count("writes", writes, 1, 100_000)
                .time("length", lengthNs)
                .hold();
    }

    @Override
    public String says() {
        return "takes " + FigureText.time(lengthNs) + " longer for each of " + writes + " writes in a row after every "
                + FigureText.bytes(everyBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            private long sinceBytes;
            private int left;

            @Override
            public void shape(Call call) {
                if (!call.isWrite()) {
                    return;
                }
                sinceBytes += call.bytes();
                if (sinceBytes >= everyBytes) {
                    sinceBytes %= everyBytes;
                    left = writes;
                }
                if (left > 0) {
                    left--;
                    call.add(lengthNs);
                }
            }
        };
    }
}

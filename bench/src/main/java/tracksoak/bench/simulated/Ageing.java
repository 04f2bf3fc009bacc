package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;

/**
 * Slows down with every byte it has ever written. Closed form: a call takes (1 + written ÷ halved) times as long,
 * at most 100 times. That
 * worn flash needs more tries is common practice, no source.
 *
 * @param halvedAfterBytes bytes after which it has half its speed
 * @param alreadyBytes bytes written in its life before this run
 */
public record Ageing(long halvedAfterBytes, long alreadyBytes) implements Behaviour {

    private static final long MOST_PERMILLE = 99_000;

    public Ageing {
        new Limits()
                .bytes("halved_after", halvedAfterBytes, 4096, Limits.MOST_BYTES)
                .bytes("already", alreadyBytes, 0, Limits.MOST_BYTES)
                .hold();
    }

    @Override
    public String says() {
        return "slows down with age: half the speed after " + FigureText.bytes(halvedAfterBytes);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                long permille = Math.min(MOST_PERMILLE, (alreadyBytes + call.writtenBytes()) * 1000 / halvedAfterBytes);
                call.add(call.serviceNs() * permille / 1000);
            }
        };
    }
}

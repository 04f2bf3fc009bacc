package tracksoak.bench.simulated;

import java.util.SplittableRandom;

/**
 * Slows down with every byte it has ever written. Closed form: a call takes (1 + written ÷ halved) times as long. That
 * worn flash needs more tries is common practice, no source.
 *
 * @param halvedAfterBytes bytes after which it has half its speed
 * @param alreadyBytes bytes written in its life before this run
 */
public record Ageing(long halvedAfterBytes, long alreadyBytes) implements Behaviour {

    public Ageing {
        Rates.within("bytes to half speed", halvedAfterBytes, 1, 1L << 50);
        Rates.within("bytes already written", alreadyBytes, 0, 1L << 50);
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
                long permille = (alreadyBytes + call.writtenBytes()) * 1000 / halvedAfterBytes;
                call.add(call.serviceNs() * permille / 1000);
            }
        };
    }
}

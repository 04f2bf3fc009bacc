package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Reads some spots only after several tries, always the same ones: flash whose charge has faded is read again and again at
 * shifted levels (read retry; Cai and others, Proceedings of the IEEE 105, 2017, from memory), a disk turns once more for
 * each try (60 s ÷ 5,400 = 11.1 ms, arithmetic). Writes are not touched, so a recording never shows it.
 *
 * <p>A weak spot takes k tries more with chance ln((k + 1) ÷ k) ÷ ln(most + 1), k = 1…most: few mostly, seldom many (own
 * law). Closed form: a weak spot takes on average Σ ln(most + 1) − ln(k), k = 1…most, ÷ ln(most + 1) tries more.
 *
 * @param oneIn spots among which one is weak, on average
 * @param spotBytes size of a spot
 * @param tryNs time of one more try, in ns
 * @param most tries of the weakest spot
 */
public record WeakReads(int oneIn, long spotBytes, long tryNs, int most) implements Behaviour {

    private static final double MANTISSA = 0x1p-53;

    public WeakReads {
        new Limits()
                .oneIn("one_in", oneIn)
                .bytes("spot", spotBytes, 4096, 1L << 40)
                .time("try", tryNs)
                .count("most", most, 1, 100_000)
                .hold();
    }

    @Override
    public String says() {
        return "reads one of " + oneIn + " spots of " + FigureText.bytes(spotBytes) + " only after up to " + most
                + " tries of " + FigureText.time(tryNs);
    }

    @Override
    public Effect start(SplittableRandom random) {
        long seed = random.nextLong();
        return new Effect() {
            @Override
            public void shape(Call call) {
                if (call.kind() == Call.Kind.READ) {
                    long last = (call.address() + Math.max(0, call.bytes() - 1)) / spotBytes;
                    for (long spot = call.address() / spotBytes; spot <= last; spot++) {
                        if (Rates.picks(seed, spot, oneIn)) {
                            call.add(tries(seed, spot) * tryNs);
                        }
                    }
                }
            }
        };
    }

    private long tries(long seed, long spot) {
        double chance = (Rates.mix(~seed + spot * 0x9e3779b97f4a7c15L) >>> 11) * MANTISSA;
        return Math.min(most, (long) StrictMath.pow(most + 1.0, chance));
    }
}

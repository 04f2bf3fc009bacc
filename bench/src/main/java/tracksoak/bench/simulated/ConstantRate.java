package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * Writes and reads at one rate, plus a fixed time per call. Closed form: service time = overhead + bytes ÷ rate.
 *
 * @param writeBytesPerSecond rate of writes in B/s
 * @param readBytesPerSecond rate of reads in B/s
 * @param overheadNs time of every call besides, in ns
 */
public record ConstantRate(long writeBytesPerSecond, long readBytesPerSecond, long overheadNs) implements Behaviour {

    public ConstantRate {
        new Limits()
                .rate("write", writeBytesPerSecond)
                .rate("read", readBytesPerSecond)
                .time("overhead", overheadNs)
                .hold();
    }

    @Override
    public String says() {
        return "writes at a constant " + FigureText.rate(writeBytesPerSecond);
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new Effect() {
            @Override
            public void shape(Call call) {
                call.add(
                        overheadNs + Rates.ns(call.bytes(), call.isWrite() ? writeBytesPerSecond : readBytesPerSecond));
            }
        };
    }
}

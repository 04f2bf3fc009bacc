package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * A spinning disk: fast at the outside, where it begins, slow at the inside, where it ends, because the angular speed is
 * constant and the tracks are shorter there; and a seek wherever a call does not go on where the last one ended.
 * Closed form: the rate of zone z of Z is outer − (outer − inner)·z ÷ (Z − 1).
 *
 * @param outerBytesPerSecond rate of the first zone in B/s
 * @param innerBytesPerSecond rate of the last zone in B/s
 * @param zones zones of equal size, at least 2
 * @param nearSeekNs time to go on within 16 MiB, in ns
 * @param farSeekNs time to go on elsewhere, in ns
 */
public record DiskZones(long outerBytesPerSecond, long innerBytesPerSecond, int zones, long nearSeekNs, long farSeekNs)
        implements Behaviour {

    private static final long NEAR_BYTES = 16 << 20;

    public DiskZones {
        new Limits()
                .rate("outer", outerBytesPerSecond)
                .rate("inner", innerBytesPerSecond, 1_000, outerBytesPerSecond)
                .count("zones", zones, 2, 1000)
                .time("near_seek", nearSeekNs)
                .time("far_seek", farSeekNs)
                .hold();
    }

    @Override
    public String says() {
        return "writes at " + FigureText.rate(outerBytesPerSecond) + " outside and "
                + FigureText.rate(innerBytesPerSecond) + " inside, with a seek in between";
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new State();
    }

    /** Rate at {@code address} of a disk of {@code capacityBytes}, in B/s. */
    long rateAt(long address, long capacityBytes) {
        long zone = Math.min(zones - 1, address / Math.max(1, capacityBytes / zones));
        return outerBytesPerSecond - (outerBytesPerSecond - innerBytesPerSecond) * zone / (zones - 1);
    }

    private final class State implements Effect {

        private long headAt;

        @Override
        public void shape(Call call) {
            if (call.bytes() == 0) {
                return;
            }
            long jump = Math.abs(call.address() - headAt);
            if (jump > 0) {
                call.add(jump <= NEAR_BYTES ? nearSeekNs : farSeekNs);
            }
            call.add(Rates.ns(call.bytes(), rateAt(call.address(), call.capacityBytes())));
            headAt = call.address() + call.bytes();
        }
    }
}

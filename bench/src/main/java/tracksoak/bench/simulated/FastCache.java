package tracksoak.bench.simulated;

import java.util.SplittableRandom;
import tracksoak.bench.simulated.figures.FigureText;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.bench.simulated.figures.Rates;

/**
 * A fast cache in front of slow memory, with a cliff where it is full: flash used with one bit per cell until it has to
 * be folded into several (common practice, no source). It drains while the drive is idle and, where it is made of free
 * flash, shrinks as the drive fills. Closed form: written without a pause the cliff is at exactly the cache's size.
 *
 * @param fastBytesPerSecond rate into the cache in B/s
 * @param slowBytesPerSecond rate past it in B/s
 * @param readBytesPerSecond rate of reads in B/s
 * @param cacheBytes size of the cache on an empty drive in bytes
 * @param drainBytesPerSecond rate at which it empties while the drive is idle, in B/s
 * @param shrinks whether its size is in proportion to the free part of the drive
 */
public record FastCache(
        long fastBytesPerSecond,
        long slowBytesPerSecond,
        long readBytesPerSecond,
        long cacheBytes,
        long drainBytesPerSecond,
        boolean shrinks)
        implements Behaviour {

    private static final int MIB = 20;

    public FastCache {
        new Limits()
                .rate("fast", fastBytesPerSecond)
                .rate("slow", slowBytesPerSecond)
                .rate("read", readBytesPerSecond)
                .bytes("cache", cacheBytes, 0, Limits.MOST_BYTES)
                .rate("drain", drainBytesPerSecond, 0, 9_000_000_000L)
                .hold();
    }

    @Override
    public String says() {
        return "writes the first " + FigureText.bytes(cacheBytes) + " at " + FigureText.rate(fastBytesPerSecond)
                + ", what comes after at " + FigureText.rate(slowBytesPerSecond)
                + (drainBytesPerSecond > 0 ? "; the cache drains when idle" : "")
                + (shrinks ? " and shrinks as the drive fills" : "");
    }

    @Override
    public Effect start(SplittableRandom random) {
        return new State();
    }

    private long sizeBytes(Call call) {
        if (!shrinks) {
            return cacheBytes;
        }
        long free = Math.max(0, call.capacityBytes() - call.usedBytes()) >> MIB;
        return ((cacheBytes >> MIB) * free / Math.max(1, call.capacityBytes() >> MIB)) << MIB;
    }

    private final class State implements Effect {

        private long heldBytes;

        @Override
        public void shape(Call call) {
            heldBytes = Math.max(0, heldBytes - Rates.bytes(call.idleNs(), drainBytesPerSecond));
            if (!call.isWrite()) {
                call.add(Rates.ns(call.bytes(), readBytesPerSecond));
                return;
            }
            long fast = Math.min(call.bytes(), Math.max(0, sizeBytes(call) - heldBytes));
            heldBytes += fast;
            call.add(Rates.ns(fast, fastBytesPerSecond) + Rates.ns(call.bytes() - fast, slowBytesPerSecond));
        }
    }
}

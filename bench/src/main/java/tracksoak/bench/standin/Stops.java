package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.concurrent.TimeUnit;
import java.util.function.LongConsumer;
import tracksoak.bench.standin.trace.Asked;

/**
 * A drive that otherwise behaves in its manner, and stops wholly when it is told to: everything asked meanwhile waits. A stop begins
 * at the first chunk after a pause, so that equal stops find the recorder in equal states. Used by the thread that serves.
 */
public final class Stops {

    private static final long NONE = -1;

    private final Manner manner;
    private final FreshBytes fresh;
    private final Manner stopping = new Stopping();
    private LongConsumer begun = us -> {};
    private long armedNs = NONE;
    private long leastPauseNs;
    private long lastDataNs;
    private long untilNs;

    /** @param driveBytes size of the drive */
    Stops(Manner manner, long driveBytes) {
        this.manner = manner;
        this.fresh = new FreshBytes(driveBytes);
    }

    Manner manner() {
        return stopping;
    }

    /** Has it told when a stop begins, and for how many µs. */
    void onBegin(LongConsumer told) {
        begun = told;
    }

    /**
     * Stops for so long at the next chunk that comes after a pause.
     *
     * @param leastPauseNs how long nothing new was written before it
     */
    public void arm(long lengthNs, long leastPauseNs) {
        armedNs = lengthNs;
        this.leastPauseNs = leastPauseNs;
    }

    private final class Stopping implements Manner {

        @Override
        public long serviceNs(Asked asked, long startNs, long offset, long bytes) throws Refused {
            if (asked == Asked.WRITE && fresh.add(offset, bytes) > 0) {
                if (armedNs != NONE && startNs - lastDataNs >= leastPauseNs) {
                    untilNs = startNs + armedNs;
                    begun.accept(TimeUnit.NANOSECONDS.toMicros(armedNs));
                    armedNs = NONE;
                }
                lastDataNs = startNs;
            }
            long waitNs = Math.max(0, untilNs - startNs);
            long serviceNs = manner.serviceNs(asked, startNs + waitNs, offset, bytes);
            return serviceNs == NEVER ? NEVER : waitNs + serviceNs;
        }

        @Override
        public void write(Store image, ByteBuffer data, long offset) throws IOException {
            manner.write(image, data, offset);
        }

        @Override
        public void read(Store image, ByteBuffer data, long offset) throws IOException {
            manner.read(image, data, offset);
        }
    }
}

package tracksoak.bench.recorder.loop;

import java.util.concurrent.TimeUnit;
import org.HdrHistogram.Histogram;

/** Histograms of call times. */
public final class Histograms {

    private Histograms() {}

    /** Of times from 1 µs to 1 h in ns, three significant digits, about 190 KB. */
    public static Histogram nanoseconds() {
        return new Histogram(1_000, TimeUnit.HOURS.toNanos(1), 3);
    }
}

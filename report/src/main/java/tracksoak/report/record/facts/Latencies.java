package tracksoak.report.record.facts;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Base64;
import java.util.zip.DataFormatException;
import org.HdrHistogram.Histogram;

/** Histograms of times in ns to and from the record's form. Any thread, as long as nobody records meanwhile. */
public final class Latencies {

    private Latencies() {}

    /** A histogram whose values are ns. An empty one gives zeros. */
    public static Latency of(Histogram ns) {
        boolean any = ns.getTotalCount() > 0;
        return new Latency(
                ns.getTotalCount(),
                any ? us(Math.round(ns.getMean())) : 0,
                us(ns.getValueAtPercentile(50)),
                us(ns.getValueAtPercentile(90)),
                us(ns.getValueAtPercentile(99)),
                us(ns.getValueAtPercentile(99.9)),
                us(ns.getMaxValue()),
                encode(ns));
    }

    /**
     * The histogram itself; its values are ns.
     *
     * @throws RecordException if it is damaged
     */
    public static Histogram decode(Latency latency) {
        try {
            ByteBuffer packed = ByteBuffer.wrap(Base64.getDecoder().decode(latency.histogram()));
            return Histogram.decodeFromCompressedByteBuffer(packed, 0);
        } catch (DataFormatException | RuntimeException e) {
            // the decoder answers damage with whatever exception its arithmetic runs into
            throw new RecordException(
                    "a histogram of the run record cannot be read",
                    "histogram",
                    String.valueOf(e.getMessage()),
                    "the record is damaged: get it again",
                    e);
        }
    }

    private static String encode(Histogram ns) {
        ByteBuffer packed = ByteBuffer.allocate(ns.getNeededByteBufferCapacity());
        int length = ns.encodeIntoCompressedByteBuffer(packed);
        return Base64.getEncoder().encodeToString(Arrays.copyOf(packed.array(), length));
    }

    /** ns to µs, on whole ns. */
    private static double us(long ns) {
        return ns / 1000.0;
    }
}

package tracksoak.report.page.chart;

import java.nio.ByteBuffer;
import java.util.Base64;
import java.util.zip.DataFormatException;
import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Latency;

/** The whole distribution behind a {@link Latency}, asked by share. */
public final class PercentileCurve {

    private static final int LONGEST_ENCODED = 1 << 20;
    private static final double NS_PER_MS = 1e6;

    private final Histogram histogram;

    private PercentileCurve(Histogram histogram) {
        this.histogram = histogram;
    }

    /** The distribution, or null where there is none, it is empty, or what is stored cannot be read. */
    public static @Nullable PercentileCurve of(@Nullable Latency latency) {
        if (latency == null || latency.histogram().length() > LONGEST_ENCODED) {
            return null;
        }
        try {
            byte[] bytes = Base64.getDecoder().decode(latency.histogram());
            Histogram histogram = Histogram.decodeFromCompressedByteBuffer(ByteBuffer.wrap(bytes), 0);
            return histogram.getTotalCount() == 0 ? null : new PercentileCurve(histogram);
        } catch (DataFormatException | RuntimeException e) {
            return null;
        }
    }

    /** Values in the distribution. */
    public long count() {
        return histogram.getTotalCount();
    }

    /** The value that {@code percentile} % of all values do not exceed, in ms. */
    public double ms(double percentile) {
        return histogram.getValueAtPercentile(percentile) / NS_PER_MS;
    }
}

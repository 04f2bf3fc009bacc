package tracksoak.report.page.chart;

import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Latencies;
import tracksoak.report.record.facts.Latency;
import tracksoak.report.record.facts.RecordException;

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
            Histogram histogram = Latencies.decode(latency);
            return histogram.getTotalCount() == 0 ? null : new PercentileCurve(histogram);
        } catch (RecordException e) {
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

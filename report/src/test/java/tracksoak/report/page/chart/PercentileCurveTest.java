package tracksoak.report.page.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.util.Base64;
import java.util.Objects;
import org.HdrHistogram.Histogram;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.record.facts.Latency;

class PercentileCurveTest {

    /**
     * Coordinated omission example of HdrHistogram's HistogramDataAccessTest: 10,000 values of 1 ms at 10 ms intervals and
     * one of 100 s, corrected; scaled from its µs to our ns.
     */
    @ParameterizedTest(name = "p{0} = {1} ms")
    @CsvSource({"50, 1", "75, 50003.967", "90, 80019.455", "99, 98041.855", "100, 100007.935"})
    void readsThePublishedExample(double percentile, double ms) {
        Histogram histogram = new Histogram(3_600_000_000_000L, 3);
        histogram.recordValueWithCount(1_000_000, 10_000);
        histogram.recordValueWithExpectedInterval(100_000_000_000L, 10_000_000);
        PercentileCurve curve = Objects.requireNonNull(PercentileCurve.of(latency(histogram)));
        assertThat(curve.count()).isEqualTo(20_000);
        assertThat(curve.ms(percentile)).isCloseTo(ms, Percentage.withPercentage(0.1));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "?", "AAAA", "HISTFAAAAAA=", "HISTFH////8AAAAA"})
    void hasNoCurveForWhatCannotBeRead(String histogram) {
        assertThat(PercentileCurve.of(new Latency(1, 1, 1, 1, 1, 1, 1, histogram)))
                .isNull();
    }

    @Test
    void hasNoCurveForNothing() {
        assertThat(PercentileCurve.of(null)).isNull();
        assertThat(PercentileCurve.of(latency(new Histogram(3_600_000_000_000L, 3))))
                .isNull();
    }

    private static Latency latency(Histogram histogram) {
        ByteBuffer buffer = ByteBuffer.allocate(histogram.getNeededByteBufferCapacity());
        byte[] bytes = new byte[histogram.encodeIntoCompressedByteBuffer(buffer)];
        buffer.flip().get(bytes);
        return new Latency(1, 1, 1, 1, 1, 1, 1, Base64.getEncoder().encodeToString(bytes));
    }
}

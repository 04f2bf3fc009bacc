package tracksoak.report.record.facts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Base64;
import java.util.Random;
import org.HdrHistogram.Histogram;
import org.junit.jupiter.api.Test;
import tracksoak.report.record.PhaseSketch;

class LatenciesTest {

    /** The corrected picture of a 100 s stall: HdrHistogram README and its HistogramDataAccessTest. */
    @Test
    void showsTheStallEveryWaitingChunkFelt() {
        Histogram ns = new Histogram(3_600_000_000_000L, 3);
        ns.recordValueWithCount(1_000_000, 10_000);
        ns.recordValueWithExpectedInterval(100_000_000_000L, 10_000_000);
        Latency latency = Latencies.of(ns);
        assertThat(latency.count()).isEqualTo(20_000);
        assertThat(latency.p50Us()).isCloseTo(1_000, within(1.0));
        assertThat(latency.p90Us()).isCloseTo(80_000_000, within(80_000_000 * 0.001));
        assertThat(latency.p99Us()).isCloseTo(98_000_000, within(98_000_000 * 0.001));
        assertThat(latency.meanUs()).isCloseTo(25_000_000, within(25_000_000 * 0.001));
    }

    /** V2 compressed cookie 0x1c849304, with 1 in its word-size bits: HdrHistogram's own encoding. */
    @Test
    void keepsTheWholeHistogram() {
        Histogram ns = new Histogram(1_000, 3_600_000_000_000L, 3);
        Random random = new Random(1);
        random.longs(10_000, 1_000, 2_000_000_000).forEach(ns::recordValue);
        Latency latency = Latencies.of(ns);
        assertThat(Latencies.decode(latency)).isEqualTo(ns);
        assertThat(Base64.getDecoder().decode(latency.histogram())).startsWith(0x1c, 0x84, 0x93, 0x14);
        assertThat(Latencies.of(Latencies.decode(latency))).isEqualTo(latency);
    }

    @Test
    void anEmptyOneGivesZeros() {
        Latency latency = Latencies.of(new Histogram(3));
        assertThat(latency.count() + latency.meanUs() + latency.maxUs()).isZero();
    }

    @Test
    void damageIsAnError() {
        Latency good = PhaseSketch.latency(3);
        Random random = new Random(8);
        for (int i = 0; i < 300; i++) {
            StringBuilder text = new StringBuilder(good.histogram());
            text.setCharAt(random.nextInt(text.length()), (char) ('!' + random.nextInt(90)));
            try {
                Latencies.decode(with(good, text.toString()));
            } catch (RecordException e) {
                assertThat(e.todo()).contains("damaged");
            }
        }
        assertThatThrownBy(() -> Latencies.decode(with(good, "no base64!"))).isInstanceOf(RecordException.class);
        assertThatThrownBy(() -> Latencies.decode(with(good, ""))).isInstanceOf(RecordException.class);
    }

    private static Latency with(Latency latency, String histogram) {
        return new Latency(
                latency.count(),
                latency.meanUs(),
                latency.p50Us(),
                latency.p90Us(),
                latency.p99Us(),
                latency.p999Us(),
                latency.maxUs(),
                histogram);
    }
}

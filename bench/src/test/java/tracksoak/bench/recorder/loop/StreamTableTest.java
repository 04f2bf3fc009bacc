package tracksoak.bench.recorder.loop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.StreamSpec;

class StreamTableTest {

    private static final BigInteger SECOND = BigInteger.valueOf(1_000_000_000);

    @Test
    void chunksOf48kHz24BitAreReadyAtTheirExactTimes() {
        // 48 kHz/24-bit is 144,000 B/s (arithmetic, rates from AES5): 65,536 B last 455.1111… ms
        StreamTable table = table(Arrival.BURST, 144_000, 65_536, 2, 10);
        assertThat(table.readyNs(0, 0)).isEqualTo(455_111_112L);
        assertThat(table.readyNs(0, 1)).isEqualTo(910_222_223L);
        assertThat(table.producedBytes(0, 1_000_000_000L)).isEqualTo(144_000);
        assertThat(table.totalBytes(0)).isEqualTo(1_440_000);
        assertThat(table.chunks(0)).isEqualTo(22);
        assertThat(table.bytesOf(0, 21)).isEqualTo(1_440_000 - 21 * 65_536);
        assertThat(table.readyNs(0, 21))
                .as("the rest is ready when the take ends")
                .isEqualTo(10_000_000_000L);
    }

    @Test
    void timesAgreeWithExactArithmeticForTwelveHoursOfAnything() {
        long seed = 20261125;
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 10_000; i++) {
            long rate = random.nextLong(8_000, 60_000_000);
            int chunk = 4096 * random.nextInt(1, 64);
            StreamTable table = table(Arrival.BURST, rate, chunk, 1e4, 43_200);
            long index = random.nextLong(Math.max(1, table.chunks(0) - 1));
            BigInteger bytes = BigInteger.valueOf(index + 1).multiply(BigInteger.valueOf(chunk));
            BigInteger[] exact = bytes.multiply(SECOND).divideAndRemainder(BigInteger.valueOf(rate));
            long ready = exact[0].longValueExact() + (exact[1].signum() > 0 ? 1 : 0);
            assertThat(table.readyNs(0, index))
                    .as("seed %s, case %s", seed, i)
                    .isEqualTo(Math.min(ready, 43_200 * 1_000_000_000L));
            assertThat(table.producedBytes(0, ready))
                    .as("seed %s, case %s", seed, i)
                    .isGreaterThanOrEqualTo(Math.min(bytes.longValueExact(), table.totalBytes(0)));
        }
    }

    @Test
    void staggeredStreamsAreSpreadOverOneChunkPeriod() {
        List<StreamSpec> four = List.of(spec(0, 65_536), spec(1, 65_536), spec(2, 65_536), spec(3, 65_536));
        StreamTable table = new StreamTable(four, 4096, Arrival.STAGGERED, 2, 10_000_000_000L);
        long period = table.readyNs(0, 0);
        for (int stream = 1; stream < 4; stream++) {
            assertThat(table.readyNs(stream, 0) - period).isEqualTo(period * stream / 4);
        }
    }

    @Test
    void chunksAreRoundedUpToTheAlignment() {
        StreamTable table = new StreamTable(List.of(spec(0, 65_536)), 131_072, Arrival.BURST, 2, 10_000_000_000L);
        assertThat(table.chunkBytes(0)).isEqualTo(131_072);
    }

    @Test
    void aChunkLargerThanTheBufferIsRefused() {
        assertThatThrownBy(() -> table(Arrival.BURST, 96_000, 262_144, 2, 10))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("262144")
                .hasMessageContaining("192000");
    }

    private static StreamSpec spec(int index, int chunk) {
        return new StreamSpec(index, 1, 144_000, chunk);
    }

    private static StreamTable table(Arrival arrival, long rate, int chunk, double bufferS, long seconds) {
        return new StreamTable(
                List.of(new StreamSpec(0, 1, rate, chunk)), 4096, arrival, bufferS, seconds * 1_000_000_000L);
    }
}

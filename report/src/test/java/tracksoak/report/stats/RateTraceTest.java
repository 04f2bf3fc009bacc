package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Seeded;

class RateTraceTest {

    private static final long S = 1_000_000_000;
    private static final long START = -5_000_000_000_123L;

    private final RateTrace trace = new RateTrace(START);

    @Test
    void spreadsTheBytesOfOneCallOverItsTime() {
        trace.add(START + S / 2, START + S / 2 + 10 * S, 1_000_000);
        assertThat(trace.bytesBetween(START, START + S / 2)).isZero();
        assertThat(trace.bytesBetween(START + S, START + 2 * S)).isCloseTo(100_000, within(1e-6));
        assertThat(trace.bytesBetween(START, START + 100 * S)).isCloseTo(1_000_000, within(1e-6));
        assertThat(trace.endNs()).isEqualTo(START + 10 * S + S / 2);
    }

    @Test
    void givesWholeRoundsOnly() {
        for (int i = 0; i < 35; i++) {
            trace.add(START + i * S, START + (i + 1) * S, i < 20 ? 10_000_000 : 4_000_000);
        }
        assertThat(trace.rounds(10 * S)).hasSize(3);
        double[] rounds = trace.rounds(10 * S);
        assertThat(rounds[0]).isCloseTo(10e6, within(1e-3));
        assertThat(rounds[2]).isCloseTo(4e6, within(1e-3));
    }

    @Test
    void losesNoByte() {
        long seed = 4;
        Random random = Seeded.random(seed);
        long sum = 0;
        long now = START;
        for (int i = 0; i < 5000; i++) {
            long bytes = random.nextInt(1 << 20);
            long took = random.nextInt(700_000_000);
            trace.add(now, now + took, bytes);
            now += took;
            sum += bytes;
        }
        assertThat(trace.bytesBetween(START, now + S)).as("seed %d", seed).isCloseTo((double) sum, within(1e-3));
    }

    @Test
    void refusesTimesThatCannotBe() {
        assertThatThrownBy(() -> trace.add(START + 2, START + 1, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> trace.add(START, START + 1, -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> trace.rounds(0)).isInstanceOf(IllegalArgumentException.class);
    }
}

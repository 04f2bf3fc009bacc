package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Seeded;

class FloorMeterTest {

    private static final long S = 1_000_000_000;
    private static final long START = -5_000_000_000_123L;

    private final FloorMeter meter = new FloorMeter(START, 10 * S);

    @Test
    void theFloorIsTheWorstWindowWhereverItLies() {
        for (int i = 0; i < 600; i++) {
            long at = START + i * (S / 10);
            boolean slow = i >= 203 && i < 303;
            meter.add(at, at + S / 10, slow ? 100_000 : 1_000_000);
        }
        assertThat(meter.floor(START + 60 * S)).isCloseTo(1e6, within(1e-3));
    }

    @Test
    void aTimeShorterThanTheWindowGivesItsMean() {
        assertThat(meter.floor(START)).isZero();
        meter.add(START, START + 4 * S, 8_000_000);
        assertThat(meter.floor(START + 4 * S)).isCloseTo(2e6, within(1e-6));
        assertThat(meter.floor(START + 8 * S)).isCloseTo(1e6, within(1e-6));
    }

    @Test
    void aDriveThatStaysAwayIsFeltBeforeItsCallIsOver() {
        meter.add(START, START + 20 * S, 20_000_000);
        assertThat(meter.floor(START + 25 * S)).isCloseTo(5e5, within(1e-6));
        assertThat(meter.floor(START + 40 * S)).isZero();
    }

    /** Every window that begins or ends where a call does, against the meter; calls of 0 ns and pauses among them. */
    @Test
    void agreesWithEveryWindowLookedAtOneByOne() {
        for (long seed = 20_260_117; seed < 20_260_217; seed++) {
            Random random = Seeded.random(seed);
            long window = 1L + random.nextInt(5_000) * 1_000_000L;
            FloorMeter fast = new FloorMeter(START, window);
            Calls calls = new Calls();
            long now = 0;
            int count = 20 + random.nextInt(200);
            for (int i = 0; i < count; i++) {
                long from = now + (random.nextInt(3) == 0 ? random.nextInt(400_000_000) : 0);
                long to = from
                        + (i > 0 && i < count - 1 && random.nextInt(10) == 0
                                ? 0
                                : random.nextInt(random.nextInt(9) == 0 ? 2_000_000_000 : 80_000_000));
                long bytes = random.nextInt(5_000_000);
                fast.add(START + from, START + to, bytes);
                calls.add(from, to, bytes);
                now = to;
            }
            assertThat(fast.floor(START + now))
                    .as("seed %d", seed)
                    .isCloseTo(calls.floor(0, now, window), within(0.01));
            long later = now + random.nextInt(2_000_000_000);
            assertThat(fast.floor(START + later))
                    .as("seed %d", seed)
                    .isCloseTo(calls.floor(0, later, window), within(0.01));
        }
    }

    @Test
    void refusesTimesThatCannotBe() {
        assertThatThrownBy(() -> meter.add(START + 2, START + 1, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> meter.add(START, START + 1, -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FloorMeter(START, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    /** The same by brute force: each call's share of each window, summed up. */
    private static final class Calls {

        private final List<long[]> calls = new ArrayList<>();

        void add(long from, long to, long bytes) {
            calls.add(new long[] {from, to, bytes});
        }

        /** In B/s. */
        double floor(long from, long to, long window) {
            if (to - from <= window) {
                return to == from ? 0 : inside(from, to) * 1e9 / (to - from);
            }
            double least = Math.min(inside(from, from + window), inside(to - window, to));
            for (long[] call : calls) {
                for (long edge : new long[] {call[0], call[1], call[0] - window, call[1] - window}) {
                    if (edge >= from && edge + window <= to) {
                        least = Math.min(least, inside(edge, edge + window));
                    }
                }
            }
            return least * 1e9 / window;
        }

        /** Bytes of the calls in a window; on its very edge a call of 0 ns is out, as a window a bit aside has it out. */
        private double inside(long from, long to) {
            double sum = 0;
            for (long[] call : calls) {
                if (call[0] == call[1]) {
                    sum += call[0] > from && call[0] < to ? call[2] : 0;
                } else {
                    long common = Math.min(to, call[1]) - Math.max(from, call[0]);
                    sum += common > 0 ? call[2] * (common / (double) (call[1] - call[0])) : 0;
                }
            }
            return sum;
        }
    }
}

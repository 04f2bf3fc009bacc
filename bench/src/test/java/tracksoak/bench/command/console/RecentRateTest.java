package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.PhaseKind;

class RecentRateTest {

    private static Progress at(double elapsedS, long bytes) {
        return new Progress(PhaseKind.FILL, 1, 1, elapsedS, -1, -1, 1, 1, 0, 0, 0, 0, 0, bytes, 7, 0);
    }

    @Test
    void isTheMeanOfTheLastFiveSeconds() {
        RecentRate rate = new RecentRate();
        // 10 MB/s for 10 s, then a second of nothing: 4 of the last 5 s were written
        for (int tick = 0; tick <= 20; tick++) {
            rate.of(at(tick / 2.0, tick * 5_000_000L));
        }
        rate.of(at(10.5, 100_000_000L));
        assertThat(rate.of(at(11, 100_000_000L))).isCloseTo(8_000_000, within(1.0));
    }

    @Test
    void isThatOfTheLastSecondWhileNothingElseIsKnown() {
        assertThat(new RecentRate().of(at(0.2, 10))).isEqualTo(7);
    }

    @Test
    void beginsAnewWithEachPhase() {
        RecentRate rate = new RecentRate();
        rate.of(at(0, 0));
        rate.of(at(60, 600_000_000L));
        assertThat(rate.of(at(0.1, 1_000))).isEqualTo(7);
        assertThat(rate.of(at(2.1, 4_001_000))).isCloseTo(2_000_000, within(1.0));
    }
}

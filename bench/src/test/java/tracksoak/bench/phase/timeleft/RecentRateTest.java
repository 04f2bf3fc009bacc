package tracksoak.bench.phase.timeleft;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RecentRateTest {

    private final RecentRate rate = new RecentRate();

    @Test
    void isTheMeanOfTheLastFiveSeconds() {
        // 10 MB/s for 10 s, then a second of nothing: 4 of the last 5 s were written
        for (int tick = 0; tick <= 20; tick++) {
            rate.of(tick / 2.0, tick * 5_000_000L);
        }
        rate.of(10.5, 100_000_000L);
        assertThat(rate.of(11, 100_000_000L)).isCloseTo(8_000_000, within(1.0));
    }

    @Test
    void isThatSinceTheBeginningAtFirstAndNothingWhileTheDriveRests() {
        assertThat(rate.of(-3, 0)).isZero();
        assertThat(rate.of(0, 0)).isZero();
        assertThat(rate.of(2, 4_000_000)).isCloseTo(2_000_000, within(1.0));
    }

    /** 1 MB every 7 s, looked at five times a second. */
    @Test
    void isNeverNothingWhileChunksComeSteadily() {
        double least = Double.MAX_VALUE;
        double most = 0;
        for (int tick = 1; tick <= 300; tick++) {
            double now = rate.of(tick / 5.0, tick / 35 * 1_000_000L);
            if (tick > 35) {
                least = Math.min(least, now);
                most = Math.max(most, now);
            }
        }
        assertThat(least).isGreaterThan(1_000_000 / 7.3);
        assertThat(most).isLessThan(1_000_000 / 4.7);
    }

    @Test
    void isNothingAfterAMinuteOfNothing() {
        rate.of(1, 1_000_000);
        for (int tick = 6; tick <= 310; tick++) {
            rate.of(tick / 5.0, 1_000_000);
        }
        assertThat(rate.of(62.2, 1_000_000)).isZero();
    }
}

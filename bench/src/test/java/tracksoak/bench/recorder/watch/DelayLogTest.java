package tracksoak.bench.recorder.watch;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class DelayLogTest {

    private static final long MS = 1_000_000;

    private final DelayLog log = new DelayLog();

    @Test
    void countsWhatOfADelayLiesInsideTheInterval() {
        log.late(100 * MS, 150 * MS);
        assertThat(log.delayNs(0, 200 * MS)).isEqualTo(50 * MS);
        assertThat(log.delayNs(120 * MS, 140 * MS)).isEqualTo(20 * MS);
        assertThat(log.delayNs(150 * MS, 200 * MS)).isZero();
    }

    /** Of two threads held up by one cause either may go on first. */
    @Test
    void whatIsDueAndHasNotHappenedIsLateAlready() {
        log.expect(100 * MS);
        assertThat(log.delayNs(0, 90 * MS)).isZero();
        assertThat(log.delayNs(0, 101 * MS)).as("ordinary slack").isZero();
        assertThat(log.delayNs(0, 400 * MS)).isEqualTo(300 * MS);
        assertThat(log.delayNs(350 * MS, 400 * MS)).isEqualTo(50 * MS);

        log.late(100 * MS, 410 * MS);
        log.expect(420 * MS);
        assertThat(log.delayNs(0, 415 * MS)).as("counted once").isEqualTo(310 * MS);
    }
}

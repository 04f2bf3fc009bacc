package tracksoak.bench.phase.timeleft;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tracksoak.report.record.facts.PhaseKind;

/** What is counted on before a phase begins, against closed forms (arithmetic). */
class PaceTest {

    private static final double MB = 1e6;

    @Test
    void readingGetsSlowerWithWearUntilItIsSeenItself() {
        Pace pace = new Pace();
        pace.felt(8_000_000, 0.1, 0.08);
        assertThat(pace.secondsToWrite(800 * MB)).isCloseTo(10, within(1e-9));
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(8, within(1e-9));
        pace.wears(2.5);
        assertThat(pace.secondsToWrite(800 * MB)).isCloseTo(10, within(1e-9));
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(20, within(1e-9));
        pace.meanwhile(PhaseKind.READ_BACK, 100_000_000, 2);
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(16, within(1e-9));
    }

    /** Half as fast at the end as at the beginning: the mean time per byte of a whole disk is 2 ln 2 of that at its beginning. */
    @Test
    void aSpinningDiskIsSeenAtItsBeginningAndReadToItsEnd() {
        Pace pace = new Pace();
        pace.on(new DiskShape(1e12, 0));
        pace.felt(8_000_000, 0.08, 0.08);
        double wholeS = 1e12 / (100 * MB) * 2 * Math.log(2);
        assertThat(pace.secondsToWrite(1e12)).isCloseTo(wholeS, within(1e-5 * wholeS));
        assertThat(pace.secondsToRead(1e12)).isCloseTo(wholeS, within(1e-5 * wholeS));
        pace.meanwhile(PhaseKind.FILL, 1_000_000_000_000L, wholeS);
        assertThat(pace.secondsToWrite(1)).isCloseTo(1 / (100 * MB), within(1e-12));
    }
}

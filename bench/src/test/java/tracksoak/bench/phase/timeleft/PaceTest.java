package tracksoak.bench.phase.timeleft;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tracksoak.report.record.facts.PhaseKind;

/** What is counted on before a phase begins (arithmetic). */
class PaceTest {

    private static final double MB = 1e6;

    private final Pace pace = new Pace();

    @Test
    void nothingIsKnownBeforeAnythingWasSeen() {
        assertThat(pace.secondsToWrite(800 * MB)).isEqualTo(Pace.UNKNOWN);
        assertThat(pace.secondsToRead(800 * MB)).isEqualTo(Pace.UNKNOWN);
        assertThat(pace.secondsToWrite(0)).isZero();
        assertThat(pace.closeS()).isEqualTo(1);
        pace.meanwhile(PhaseKind.FILL, (4 << 20) - 1, 0.1);
        assertThat(pace.secondsToWrite(800 * MB)).as("too little to tell").isEqualTo(Pace.UNKNOWN);
    }

    @Test
    void readsCountAsFastAsWritesUntilTheyAreSeen() {
        pace.meanwhile(PhaseKind.FILL, 100_000_000, 2);
        assertThat(pace.secondsToWrite(800 * MB)).isCloseTo(16, within(1e-9));
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(16, within(1e-9));
        pace.meanwhile(PhaseKind.READ_BACK, 100_000_000, 1);
        assertThat(pace.secondsToWrite(800 * MB)).isCloseTo(16, within(1e-9));
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(8, within(1e-9));
    }

    @Test
    void whatWasSeenFlatOutCountsBeforeWhatWasSeenAtSessionRate() {
        pace.meanwhile(PhaseKind.TAKE, 10_000_000, 1);
        assertThat(pace.secondsToWrite(800 * MB)).isCloseTo(80, within(1e-9));
        pace.meanwhile(PhaseKind.TAKE, 30_000_000, 2);
        assertThat(pace.secondsToWrite(900 * MB)).as("the longer look").isCloseTo(60, within(1e-9));
        pace.meanwhile(PhaseKind.COPY, 50_000_000, 1);
        pace.meanwhile(PhaseKind.TAKE, 10_000_000, 1);
        assertThat(pace.secondsToWrite(800 * MB)).isCloseTo(16, within(1e-9));
        pace.meanwhile(PhaseKind.PLAYBACK, 40_000_000, 1);
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(20, within(1e-9));
        pace.meanwhile(PhaseKind.KEEPSAKE, 80_000_000, 1);
        pace.meanwhile(PhaseKind.PLAYBACK, 40_000_000, 1);
        assertThat(pace.secondsToRead(800 * MB)).isCloseTo(10, within(1e-9));
    }
}

package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rule: SNIA Solid State Storage Performance Test Specification 2.0.2, §2.1.24; the vectors are arithmetic on it. */
class SteadyStateTest {

    @ParameterizedTest
    @CsvSource({
        "100,104,98,102,101, .0594, , true",
        "95,97.5,100,102.5,105, .10, .10, true",
        "90,95,100,105,110, .20, .20, false",
        "90,110,90,110,90, .2041, , false",
        "105,102.5,100,97.5,95, .10, .10, true",
        "120,100,100,100,100, .1923, .1538, false",
        "5,5,5,5,5, 0, 0, true"
    })
    void judgesFiveRounds(
            double a, double b, double c, double d, double e, double range, Double slope, boolean steady) {
        SteadyState found = SteadyState.of(new double[] {a, b, c, d, e});
        assertThat(found.rangeShare()).isCloseTo(range, within(5e-5));
        if (slope != null) {
            assertThat(found.slopeShare()).isCloseTo(slope, within(5e-5));
        }
        assertThat(found.steady()).isEqualTo(steady);
    }

    @Test
    void scaleDoesNotMatter() {
        double[] rounds = {95e6, 97.5e6, 100e6, 102.5e6, 105e6};
        assertThat(SteadyState.of(rounds).steady()).isTrue();
        rounds[4] = 105.2e6;
        assertThat(SteadyState.of(rounds).steady()).isFalse();
    }

    @Test
    void aDriveThatWritesNothingIsNotSteady() {
        assertThat(SteadyState.of(new double[5]).steady()).isFalse();
    }

    @Test
    void refusesWhatItCannotJudge() {
        assertThatThrownBy(() -> SteadyState.of(new double[4])).hasMessageContaining("5 rounds, not 4");
        assertThatThrownBy(() -> SteadyState.of(new double[] {1, 1, Double.NaN, 1, 1}))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> SteadyState.of(new double[] {1, 1, -1, 1, 1})).hasMessageContaining("round 2");
    }
}

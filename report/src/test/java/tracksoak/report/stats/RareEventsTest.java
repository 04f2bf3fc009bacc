package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RareEventsTest {

    /** Hanley and Lippman-Hand, "If nothing goes wrong, is everything all right?", JAMA 1983. */
    @ParameterizedTest
    @CsvSource({"30, .09503", "100, .02951"})
    void noEventInManyTrials(int trials, double bound) {
        assertThat(RareEvents.probabilityBound(0, trials, 0.95)).isCloseTo(bound, within(5e-6));
        assertThat(bound).isCloseTo(3.0 / trials, within(0.006));
    }

    /** Garwood, Biometrika 1936: half the χ² quantile with 2(n+1) degrees of freedom. */
    @ParameterizedTest
    @CsvSource({"0, 2.9957", "1, 4.7439", "2, 6.2958", "3, 7.7537", "5, 10.5130", "10, 16.9622"})
    void exactPoissonBounds(int events, double bound) {
        assertThat(RareEvents.countBound(events, 0.95)).isCloseTo(bound, within(5e-5));
    }

    @ParameterizedTest
    @CsvSource({"0, .5", "1, .9", "7, .95", "40, .99", "300, .999"})
    void agreesWithTheChiSquaredQuantile(int events, double confidence) {
        double reference = ChiSquaredDistribution.of(2 * (events + 1.0)).inverseCumulativeProbability(confidence) / 2;
        assertThat(RareEvents.countBound(events, confidence)).isCloseTo(reference, within(reference * 1e-8));
    }

    @ParameterizedTest
    @CsvSource({"1, 30, .95", "3, 1000, .95", "50, 100, .99", "99, 100, .9"})
    void theBinomialTailAtTheBoundIsTheRest(int events, int trials, double confidence) {
        double bound = RareEvents.probabilityBound(events, trials, confidence);
        assertThat(BinomialDistribution.of(trials, bound).cumulativeProbability(events))
                .isCloseTo(1 - confidence, within(1e-9));
    }

    @Test
    void refusesWhatCannotBe() {
        assertThat(RareEvents.probabilityBound(5, 5, 0.95)).isEqualTo(1);
        assertThatThrownBy(() -> RareEvents.probabilityBound(6, 5, 0.95)).hasMessageContaining("6 events in 5");
        assertThatThrownBy(() -> RareEvents.countBound(-1, 0.95)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> RareEvents.countBound(0, 1)).isInstanceOf(IllegalArgumentException.class);
    }
}

package tracksoak.report.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;

class ChangePointTest {

    private static final long S = 1_000_000_000;
    private static final double MB = 1e6;

    @Test
    void findsTheCliffWithinTheSecond() {
        RateTrace trace = new RateTrace(77);
        trace.add(77, 77 + 40 * S + 300_000_000, 4_030_000_000L);
        trace.add(77 + 40 * S + 300_000_000, 77 + 120 * S, 1_594_000_000);
        ChangePoint cliff = ChangePoint.find(trace).orElseThrow();
        assertThat(cliff.atS()).isCloseTo(40.3, within(0.01));
        assertThat((double) cliff.bytes()).isCloseTo(4.03e9, within(1e6));
        assertThat(cliff.rateBefore()).isCloseTo(100e6, within(1e5));
        assertThat(cliff.rateAfter()).isCloseTo(20e6, within(1e5));
    }

    @ParameterizedTest
    @CsvSource({"3,100,40", "10,60,70", "30,300,40", "120,15,70", "5,25,30", "200,200,75"})
    void findsTheCliffInNoiseWithStalls(int at, int after, int percentLeft) {
        for (long seed = 1; seed <= 40; seed++) {
            Random random = Seeded.random(seed * 1000 + at);
            double[] rates = rates(at + after, i -> (i < at ? 100 : percentLeft) * (1 + 0.04 * random.nextGaussian()));
            for (int i = 8; i < rates.length; i += 15) {
                rates[i] *= 0.2;
            }
            assertThat(ChangePoint.split(rates)).as("seed %d", seed).isCloseTo(at, within(2.5));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {13, 20, 60, 300, 3600})
    void noiseAloneIsNoCliff(int seconds) {
        int called = 0;
        for (long seed = 1; seed <= 60; seed++) {
            Random random = Seeded.random(seed);
            double[] rates = rates(seconds, i -> 100 * Math.exp(0.3 * random.nextGaussian()));
            called += Double.isNaN(ChangePoint.split(rates)) ? 0 : 1;
        }
        assertThat(called).as("of 60 seeded traces, 5 % by chance").isLessThanOrEqualTo(3);
    }

    @ParameterizedTest
    @CsvSource({"10,1", "10,3", "10,5", "30,15", "60,20", "7,6", "60,40"})
    void stallsThatComeAndGoAreNoCliff(int period, int stalled) {
        for (int phase = 0; phase < period; phase++) {
            int shift = phase;
            double[] rates = rates(10 * period, i -> (i + shift) % period < stalled ? 2 : 100);
            assertThat(ChangePoint.split(rates)).as("phase %d", phase).isNaN();
        }
    }

    @Test
    void randomBurstsOfAMostlySlowDriveAreNoCliff() {
        int called = 0;
        for (long seed = 1; seed <= 200; seed++) {
            Random random = Seeded.random(seed);
            double[] rates = rates(200, i -> random.nextDouble() < 0.25 ? 100 : 10);
            called += Double.isNaN(ChangePoint.split(rates)) ? 0 : 1;
        }
        assertThat(called).as("of 200 seeded traces").isLessThanOrEqualTo(10);
    }

    @ParameterizedTest
    @ValueSource(ints = {120, 600, 3600})
    void aSlowDeclineIsNoCliff(int seconds) {
        Random random = Seeded.random(seconds);
        double[] rates = rates(seconds, i -> (100 - 50.0 * i / seconds) * (1 + 0.03 * random.nextGaussian()));
        assertThat(ChangePoint.split(rates)).isNaN();
    }

    @Test
    void oneLongStallIsNoCliff() {
        assertThat(ChangePoint.split(rates(120, i -> i >= 50 && i < 75 ? 0 : 100)))
                .isNaN();
    }

    @Test
    void aRiseIsNoCliff() {
        assertThat(ChangePoint.split(rates(120, i -> i < 60 ? 20 : 100))).isNaN();
    }

    @ParameterizedTest
    @CsvSource({"79.9, true", "80.1, false"})
    void theDropMustBeAFifth(double after, boolean cliff) {
        assertThat(Double.isNaN(ChangePoint.split(rates(100, i -> i < 50 ? 100 : after))))
                .isEqualTo(!cliff);
    }

    @Test
    void tooLittleWatchedSaysNothing() {
        assertThat(ChangePoint.split(rates(12, i -> i < 3 ? 100 : 10))).isNaN();
        assertThat(ChangePoint.find(new RateTrace(0))).isEmpty();
    }

    private static double[] rates(int seconds, IntToDoubleFunction megabytes) {
        double[] rates = new double[seconds];
        Arrays.setAll(rates, i -> Math.max(0, megabytes.applyAsDouble(i)) * MB);
        return rates;
    }
}

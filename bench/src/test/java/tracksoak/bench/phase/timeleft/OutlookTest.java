package tracksoak.bench.phase.timeleft;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import tracksoak.report.stats.RateTrace;

/** What a phase that goes on counts on, against closed forms (arithmetic). */
class OutlookTest {

    private static final double A_BYTE_S = 1e-6;

    /** A byte takes a + k·x, x bytes further on: x bytes take a·x + k·x²/2, so after t s it has written the root of that. */
    private static double[] slowingRates(double a, double k, int rounds, double roundS) {
        double[] rates = new double[rounds];
        double before = 0;
        for (int i = 0; i < rounds; i++) {
            double now = (Math.sqrt(a * a + 2 * k * (i + 1) * roundS) - a) / k;
            rates[i] = (now - before) / roundS;
            before = now;
        }
        return rates;
    }

    @Test
    void seesByHowMuchADriveSlowsDown() {
        double k = 1e-14;
        double[] rates = slowingRates(A_BYTE_S, k, 40, 10);
        assertThat(Outlook.slowing(rates, 10)).isCloseTo(k, within(1e-6 * k));
        double written = 0;
        for (double rate : rates) {
            written += rate * 10;
        }
        double more = 5 * written;
        double exactS = A_BYTE_S * more + k * (written * more + more * more / 2);
        Outlook outlook = new Outlook(DiskShape.EVEN, 0);
        assertThat(outlook.secondsFor(0, written, more, written / 400, k)).isCloseTo(exactS, within(1e-6 * exactS));
    }

    @Test
    void seesHowMuchLongerAByteTakesAtTheEnd() {
        double k = 1e-14;
        double rate = 1 / (A_BYTE_S + k * 1e8);
        Outlook outlook = new Outlook(DiskShape.EVEN, 0);
        assertThat(outlook.wear(1e8, rate, 3e8, k)).isCloseTo((A_BYTE_S + k * 3e8) / A_BYTE_S, within(1e-9));
        assertThat(outlook.wear(1e8, rate, 3e8, 0)).isEqualTo(1);
        assertThat(outlook.wear(1e8, 0, 3e8, k)).isEqualTo(1);
        assertThat(new Outlook(new DiskShape(1e9, 0), 0).wear(1e8, rate, 3e8, k))
                .isEqualTo(1);
    }

    @Test
    void takesOneFallOrAWaveringRateForNoSlowing() {
        assertThat(Outlook.slowing(new double[] {9, 9, 9, 9, 9, 9, 2, 2}, 10)).isZero();
        assertThat(Outlook.slowing(new double[] {9, 9, 2, 2, 2, 2, 2, 2}, 10)).isZero();
        assertThat(Outlook.slowing(new double[] {9, 8, 9, 7}, 10)).isZero();
        assertThat(Outlook.slowing(new double[] {9, 8, 7, 0}, 10)).isZero();
        assertThat(Outlook.slowing(new double[] {9, 8, 7}, 10)).isZero();
        assertThat(Outlook.slowing(new double[] {9, 8.9, 5, 4}, 10)).isZero();
        assertThat(Outlook.slowing(new double[] {9, 8, 7, 6}, 10)).isPositive();
    }

    @Test
    void weighsWhatWasSeenBeforeLessAndLess() {
        Outlook outlook = new Outlook(DiskShape.EVEN, 0.01);
        assertThat(outlook.settled(300, 0)).isEqualTo(100);
        assertThat(outlook.settled(300, 30)).isEqualTo(200);
        assertThat(outlook.settled(300, 60)).isEqualTo(300);
        assertThat(new Outlook(DiskShape.EVEN, Pace.UNKNOWN).settled(300, 1)).isEqualTo(300);
        assertThat(outlook.secondsFor(0, 10, 600, 300, 0)).isEqualTo(2);
        assertThat(outlook.secondsFor(0, 10, 600, 0, 0)).isEqualTo(Pace.UNKNOWN);
    }

    @Test
    void seesAFallAndThatItIsOver() {
        RateTrace trace = new RateTrace(0);
        FallWatch watch = new FallWatch(trace);
        for (int second = 0; second < 60; second++) {
            boolean slow = (second >= 20 && second < 40) || (second >= 50 && second < 53);
            trace.add(second * 1_000_000_000L, (second + 1) * 1_000_000_000L, slow ? 10 : 100);
            double fellAtS = watch.fellAtS((second + 1) * 1_000_000_000L);
            if (second >= 23 && second < 40) {
                assertThat(fellAtS).isEqualTo(20);
            } else {
                assertThat(fellAtS).as("after " + (second + 1) + " s").isNaN();
            }
        }
    }
}

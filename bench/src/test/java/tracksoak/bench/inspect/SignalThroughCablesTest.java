package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.timecode.TestSignal;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;

/** What a path that is not digital does to the test signal is not called lost audio. */
class SignalThroughCablesTest {

    private static final int RATE = 48_000;
    private static final int SECONDS = 12;

    /** How far the player's clock is ahead of the recorder's. */
    @FunctionalInterface
    private interface Pace {
        double millionths(double second);
    }

    private static float[] heard(Pace pace) {
        float[] signal = new float[(SECONDS + 2) * RATE];
        new TestSignal(RATE).fill(0, signal, signal.length);
        Random random = new Random(46);
        float[] heard = new float[SECONDS * RATE];
        double t = 0.4;
        for (int i = 0; i < heard.length; i++) {
            int n = (int) t;
            heard[i] = (float) (signal[n] + (signal[n + 1] - signal[n]) * (t - n) + 1e-4 * random.nextGaussian());
            t += 1 + pace.millionths((double) i / RATE) * 1e-6;
        }
        return heard;
    }

    /** Butterworth's low cut of the third order, by bilinear transform. */
    private static float[] lowCut(float[] heard, double hz) {
        double k = Math.tan(Math.PI * hz / RATE);
        double one = 0;
        double before = 0;
        double s1 = 0;
        double s2 = 0;
        double scale = 1 / (1 + k + k * k);
        float[] cut = new float[heard.length];
        for (int i = 0; i < heard.length; i++) {
            one = (heard[i] - before + (1 - k) * one) / (1 + k);
            before = heard[i];
            double out = one * scale + s1;
            s1 = -2 * one * scale - out * 2 * (k * k - 1) * scale + s2;
            s2 = one * scale - out * (1 - k + k * k) * scale;
            cut[i] = (float) out;
        }
        return cut;
    }

    private static float[] without(float[] heard, int at, int count) {
        float[] rest = new float[heard.length - count];
        System.arraycopy(heard, 0, rest, 0, at);
        System.arraycopy(heard, at + count, rest, at, rest.length - at);
        return rest;
    }

    private static List<Finding> found(float[] heard) {
        InventedRecording recording = new InventedRecording(1, RATE, 3, false, heard.length);
        recording.put(InventedRecording.name(1), recording.stored(heard));
        return recording.inspected().findings();
    }

    private static Verdict.Outcome outcome(List<Finding> found) {
        return new InspectionJudge(List.of(), found).outcome();
    }

    @ParameterizedTest
    @ValueSource(ints = {-9000, -300, 300, 9000})
    void clocksThatDifferTooMuchLeaveNoVerdictWhateverElseIsSeen(int millionths) {
        List<Finding> whole = found(heard(second -> millionths));
        List<Finding> lost = found(without(heard(second -> millionths), 5 * RATE, 3000));

        assertThat(whole).extracting(Finding::kind).containsExactly(FindingKind.CLOCKS);
        assertThat(lost)
                .extracting(Finding::kind)
                .containsExactlyInAnyOrder(FindingKind.CLOCKS, FindingKind.SIGNAL_MISSING);
        assertThat(outcome(lost)).isEqualTo(Verdict.Outcome.NO_VERDICT);
    }

    /** As a player does whose speed is turned, or a recorder whose clock comes from elsewhere from now on. */
    @ParameterizedTest
    @ValueSource(ints = {-9000, 9000})
    void aClockThatChangesLeavesNoVerdictAndIsToldInFewWords(int millionths) {
        List<Finding> found = found(heard(second -> second < 5 ? 0 : millionths));

        assertThat(outcome(found)).as("%s", found).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(found).hasSizeLessThan(4).anyMatch(one -> one.kind() == FindingKind.CLOCKS);
    }

    @Test
    void whatALowCutMakesIllegibleIsNotCalledLostAndWhatIsMissingIs() {
        float[] cut = lowCut(heard(second -> 0), 300);
        List<Finding> whole = found(cut);
        List<Finding> lost = found(without(cut, 5 * RATE, 480));

        assertThat(outcome(whole)).as("%s", whole).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(whole).allSatisfy(one -> assertThat(one.sentence()).contains("cannot be read. A low cut"));
        assertThat(lost)
                .filteredOn(one -> one.weight() == Finding.Weight.FAULT)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.kind()).isEqualTo(FindingKind.SIGNAL_MISSING);
                    assertThat(one.samples()).isCloseTo(480, within(144.0));
                });
    }
}

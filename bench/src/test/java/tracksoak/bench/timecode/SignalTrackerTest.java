package tracksoak.bench.timecode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;

class SignalTrackerTest {

    private static final double STEP_24 = 1.0 / (1 << 23);

    private static float[] signal(int rate, long from, int count, int bits) {
        float[] samples = new float[count];
        new TestSignal(rate).fill(from, samples, count);
        double full = 1L << (bits - 1);
        for (int i = 0; i < count; i++) {
            samples[i] = (float) (Math.rint(samples[i] * full) / full);
        }
        return samples;
    }

    private static SignalTrace track(int rate, double step, float[] samples) {
        SignalTracker tracker = new SignalTracker(rate, step);
        tracker.feed(samples, samples.length);
        return tracker.end();
    }

    private static float[] without(float[] samples, int at, int count) {
        float[] rest = Arrays.copyOf(samples, samples.length - count);
        System.arraycopy(samples, at + count, rest, at, rest.length - at);
        return rest;
    }

    private static float[] twice(float[] samples, int at, int count) {
        float[] more = Arrays.copyOf(samples, samples.length + count);
        System.arraycopy(samples, at - count, more, at, samples.length - at + count);
        return more;
    }

    @ParameterizedTest
    @ValueSource(ints = {44_100, 48_000, 88_200, 96_000, 176_400, 192_000})
    void aSoundTrackHasNoBreakAtAnyRateAndIsFollowedFromItsFirstSampleToItsLast(int rate) {
        SignalTrace trace = track(rate, 1.0 / (1 << 15), signal(rate, 12_345, 10 * rate, 16));

        assertThat(trace.breaks()).isEmpty();
        assertThat(trace.exact()).isTrue();
        assertThat(trace.from()).isZero();
        assertThat(trace.until()).isEqualTo(10L * rate);
        assertThat(trace.signalAtFrom()).isEqualTo(12_345);
        assertThat(trace.frames()).isBetween(247L, 250L);
    }

    @Test
    void everyMissingRepeatedAndSpoiltSampleIsFoundToTheSample() {
        Random random = new Random(41);
        for (int round = 0; round < 30; round++) {
            int rate = new int[] {44_100, 48_000, 96_000}[round % 3];
            int at = rate + random.nextInt(3 * rate);
            int count = round % 2 == 0 ? 1 + random.nextInt(3) : 1 + random.nextInt(60_000);
            count = Math.min(count, at);
            float[] sound = signal(rate, 0, 6 * rate, 24);

            SignalTrace lost = track(rate, STEP_24, without(sound, at, count));
            SignalTrace repeated = track(rate, STEP_24, twice(sound, at, count));
            float[] zeros = sound.clone();
            Arrays.fill(zeros, at, at + Math.min(count, 30_000), 0);
            SignalTrace spoilt = track(rate, STEP_24, zeros);

            String what = "round " + round + ": " + count + " samples at " + at + " of " + rate + " Hz";
            assertThat(lost.breaks()).as(what).hasSize(1);
            assertThat(lost.breaks().get(0).missing()).as(what).isEqualTo(count);
            assertThat(lost.breaks().get(0).at()).as(what).isBetween((long) at, at + 1L);
            assertThat(repeated.breaks()).as(what).hasSize(1);
            assertThat(repeated.breaks().get(0).back()).as(what).isEqualTo(count);
            assertThat(repeated.breaks().get(0).at()).as(what).isBetween((long) at, at + 1L);
            assertThat(spoilt.breaks()).as(what).hasSize(1);
            assertThat(spoilt.breaks().get(0).at()).as(what).isBetween((long) at, at + 1L);
            assertThat(spoilt.breaks().get(0).missing()).as(what).isCloseTo(Math.min(count, 30_000), within(2.0));
        }
    }

    @Test
    void twoChunksThatChangedPlacesAreThreeSteps() {
        int rate = 48_000;
        float[] sound = signal(rate, 0, 6 * rate, 24);
        float[] swapped = sound.clone();
        int c = 21_845;
        System.arraycopy(sound, rate, swapped, rate + c, c);
        System.arraycopy(sound, rate + c, swapped, rate, c);

        SignalTrace trace = track(rate, STEP_24, swapped);

        assertThat(trace.breaks()).extracting(SignalBreak::skipped).containsExactly((double) c, -2.0 * c, (double) c);
        assertThat(trace.breaks()).extracting(SignalBreak::at).containsExactly(48_000L, 48_000L + c, 48_000L + 2L * c);
    }

    /** The signal as a converter and a cable leave it: other clock, level, polarity, an offset, hum, noise, less treble. */
    private static float[] analogue(int rate, double ppm, double noise, long seed, int seconds) {
        float[] source = signal(rate, 0, (seconds + 2) * rate, 24);
        Random random = Seeded.random(seed);
        int count = seconds * rate;
        float[] out = new float[count];
        double smooth = 0;
        for (int i = 0; i < count; i++) {
            double t = 0.37 + i / (1 + ppm * 1e-6);
            int n = (int) t;
            double value = source[n] + (source[n + 1] - source[n]) * (t - n);
            smooth += (value - smooth) * 0.7;
            out[i] = (float) (-0.6 * smooth
                    + 0.004
                    + 0.004 * Math.sin(i * 2 * Math.PI * 50 / rate)
                    + noise * random.nextGaussian());
        }
        return out;
    }

    @ParameterizedTest
    @ValueSource(doubles = {-200, -37, 0, 55, 200})
    void throughAnAnaloguePathASoundTrackHasNoBreakAndTheClocksAreTold(double ppm) {
        SignalTrace trace = track(48_000, STEP_24, analogue(48_000, ppm, 0.005, 7, 30));

        assertThat(trace.exact()).isFalse();
        assertThat(trace.breaks()).isEmpty();
        assertThat(trace.ppm()).isCloseTo(ppm, within(2.0));
        assertThat(trace.until()).isCloseTo(30L * 48_000, within(3_000L));
    }

    @Test
    void throughAnAnaloguePathWhatIsMissingOrRepeatedIsFoundToTheMillisecond() {
        Random random = new Random(43);
        for (int round = 0; round < 12; round++) {
            double ppm = (random.nextDouble() - 0.5) * 400;
            float[] sound = analogue(48_000, ppm, 0.004, round, 8);
            int at = 48_000 + random.nextInt(4 * 48_000);
            int count = 48 + random.nextInt(round % 2 == 0 ? 200 : 40_000);
            SignalTrace lost = track(48_000, STEP_24, without(sound, at, count));
            SignalTrace repeated = track(48_000, STEP_24, twice(sound, at, count));

            String what = "round " + round + ": " + count + " samples at " + at;
            assertThat(lost.breaks()).as(what).hasSize(1);
            assertThat(lost.breaks().get(0).missing()).as(what).isCloseTo(count, within(48.0));
            assertThat(lost.breaks().get(0).at()).as(what).isCloseTo(at, within(48L));
            assertThat(repeated.breaks()).as(what).hasSize(1);
            assertThat(repeated.breaks().get(0).back()).as(what).isCloseTo(count, within(48.0));
            assertThat(repeated.breaks().get(0).at()).as(what).isCloseTo(at, within(48L));
        }
    }

    /** As a recorder leaves it that writes an old buffer once more in place of a new one. */
    @Test
    void throughAnAnaloguePathOldAudioOfAFewMillisecondsInPlaceOfNewIsFound() {
        Random random = new Random(44);
        for (int round = 0; round < 40; round++) {
            float[] sound = analogue(48_000, (random.nextDouble() - 0.5) * 400, 0.002, round, 5);
            int at = 2 * 48_000 + random.nextInt(2 * 48_000);
            int count = 96 + random.nextInt(96);
            float[] old = sound.clone();
            System.arraycopy(sound, at - 12_000 - random.nextInt(4800), old, at, count);
            SignalTrace trace = track(48_000, STEP_24, old);

            String what = "round " + round + ": " + count + " samples at " + at;
            assertThat(trace.breaks()).as(what).hasSize(1);
            assertThat(trace.breaks().get(0).at()).as(what).isCloseTo(at, within(96L));
            assertThat(trace.breaks().get(0).missing()).as(what).isCloseTo(count, within(96.0));
            assertThat(trace.breaks().get(0).skipped()).as(what).isCloseTo(0, within(5.0));
        }
    }

    /** An open input before the player starts: its noise ends right where the signal begins, which comes through a transformer. */
    private static float[] afterNoise(Random random, int rate, int lead, int length) {
        double before = Math.pow(10, -(40 + 50 * random.nextDouble()) / 20);
        double level = Math.pow(10, -random.nextInt(18) / 20.0);
        double noise = Math.min(before, 0.01 * level);
        double lowCut = 2 * Math.PI * random.nextInt(40) / rate;
        double colour = Math.pow(10, -1.5 * random.nextDouble());
        float[] source = signal(rate, 0, length, 24);
        float[] out = new float[lead + length];
        double slow = 0;
        double smooth = 0;
        for (int i = 0; i < out.length; i++) {
            double value = i < lead ? 0 : level * source[i - lead];
            slow += (value - slow) * lowCut;
            smooth += (random.nextGaussian() - smooth) * colour;
            out[i] = (float)
                    (value - slow + (i < lead ? before * smooth / Math.sqrt(colour) : noise * random.nextGaussian()));
        }
        return out;
    }

    @Test
    void whateverNoiseStandsBeforeItASignalToTheMillisecondIsSoundAndWhatIsMissingIsFound() {
        int rate = 48_000;
        for (int seed = 0; seed < 300; seed++) {
            Random random = Seeded.random(seed);
            int lead = rate / 4 + random.nextInt(rate / 2);
            float[] sound = afterNoise(random, rate, lead, 3 * rate);
            int at = lead + rate / 2 + random.nextInt(2 * rate);
            SignalTrace whole = track(rate, STEP_24, sound);
            SignalTrace lost = track(rate, STEP_24, without(sound, at, 480));

            String what = "seed " + seed;
            assertThat(whole.found()).as(what).isTrue();
            assertThat(whole.breaks()).as(what).isEmpty();
            assertThat(whole.ppm()).as(what).isCloseTo(0, within(100.0));
            assertThat(lost.breaks()).as(what).singleElement().satisfies(one -> {
                assertThat(one.at()).isCloseTo(at, within(240L));
                assertThat(one.missing()).isCloseTo(480, within(72.0));
            });
        }
    }

    @Test
    void noiseSilenceAndATimecodeOfAnotherMakeAreNoTestSignal() {
        float[] noise = new float[480_000];
        Random random = new Random(5);
        for (int i = 0; i < noise.length; i++) {
            noise[i] = (float) random.nextGaussian() * 0.1f;
        }

        assertThat(track(48_000, STEP_24, noise).found()).isFalse();
        assertThat(track(48_000, STEP_24, new float[480_000]).found()).isFalse();
    }

    /** Open inputs before the player starts, quiet and loud, of all colours. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 0.4, 0.15, 0.08, 0.05})
    void whateverNoiseStandsBeforeItTheSignalIsFollowedFromItsBeginning(double colour) {
        int rate = 48_000;
        for (int round = 0; round < 12; round++) {
            Random random = Seeded.random(round);
            int lead = round % 2 == 0 ? 5 * rate : 7 * rate / 10;
            double level = Math.pow(10, -(round / 2) * 20 / 20.0 + 0.5) * 0.01;
            float[] sound = Arrays.copyOf(new float[lead], lead + 4 * rate);
            double smooth = 0;
            for (int i = 0; i < lead; i++) {
                smooth += (level * random.nextGaussian() - smooth) * colour;
                sound[i] = (float) smooth;
            }
            System.arraycopy(signal(rate, 0, 4 * rate, 24), 0, sound, lead, 4 * rate);
            SignalTrace lost = track(rate, STEP_24, without(sound, lead + rate, 480));

            String what = "round " + round;
            assertThat(lost.found()).as(what).isTrue();
            assertThat(lost.from()).as(what).isCloseTo(lead, within(2L));
            assertThat(lost.breaks()).as(what).singleElement().satisfies(one -> {
                assertThat(one.at()).isCloseTo(lead + rate, within(1L));
                assertThat(one.missing()).isEqualTo(480);
            });
        }
    }
}

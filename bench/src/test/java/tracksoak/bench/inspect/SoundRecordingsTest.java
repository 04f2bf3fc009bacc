package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.SampleFile;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.InspectedTrack;

/** Nothing is found in a sound recording: 30 of them in each build, 1,000 at night. */
class SoundRecordingsTest {

    private static void nothingIsFoundIn(long seed) {
        int rate = new int[] {44_100, 48_000, 96_000}[(int) (seed % 3)];
        int bytes = new int[] {2, 3, 3, 4}[(int) (seed % 4)];
        InventedRecording recording = seed % 5 == 0
                ? InventedRecording.ofSignal(seed, rate, bytes, 4, 3)
                : InventedRecording.ofMusic(seed, rate, bytes, bytes == 4 && seed % 2 == 0, 6, 4);
        Inspection inspection = recording.inspected();

        InspectionJudge judge = new InspectionJudge(inspection.takes(), inspection.findings());
        assertThat(judge.outcome())
                .as("seed %d: %s", seed, inspection.findings())
                .isEqualTo(Verdict.Outcome.PASS);
    }

    /** Tones that are so again after a second but for the rounding of a few samples, between which others seem to be old buffers. */
    @ParameterizedTest
    @ValueSource(longs = {1_439, 1_703})
    void aToneThatIsRoundedOtherwiseNowAndThenIsNoOldBuffer(long seed) {
        nothingIsFoundIn(seed);
    }

    /** A generator of noise that begins anew after a power of two, and was on before the recorder was. */
    @ParameterizedTest
    @ValueSource(ints = {16_384, 65_536})
    void aLoopThatPlaysFromTheBeginningOnIsNoFault(int period) {
        InventedRecording recording = new InventedRecording(1, 48_000, 3, false, 2 * period + period / 2 + 17);
        float[] noise = new float[recording.samples];
        for (int i = 0; i < noise.length; i++) {
            noise[i] = i < period ? (float) (0.1 * recording.random.nextGaussian()) : noise[i - period];
        }
        recording.put(InventedRecording.name(1), recording.stored(noise));

        assertThat(recording.inspected().findings())
                .noneMatch(one -> one.weight() == Finding.Weight.FAULT)
                .anyMatch(one -> one.kind() == FindingKind.REPEATED_BLOCK);
    }

    @Test
    void nothingIsFoundInSoundRecordings() {
        LongStream.range(0, 30).forEach(SoundRecordingsTest::nothingIsFoundIn);
    }

    @Tag("nightly")
    @ParameterizedTest
    @ValueSource(longs = {1_000, 1_250, 1_500, 1_750})
    void norInAThousand(long first) {
        LongStream.range(first, first + 250).parallel().forEach(SoundRecordingsTest::nothingIsFoundIn);
    }

    /** What generators, gates, mixers and songs with silence between them leave: it may be worth a listen, but it is never lost audio. */
    private static void nothingIsCalledLostIn(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int rate = new int[] {22_050, 44_100, 48_000, 88_200, 96_000, 192_000}[random.nextInt(6)];
        int bytes = random.nextInt(2, 5);
        int tracks = random.nextInt(1, 8);
        InventedRecording recording = new InventedRecording(
                seed, rate, bytes, bytes == 4 && random.nextBoolean(), random.nextInt(rate, 4 * rate));
        byte[][] stored = new byte[tracks][];
        for (int track = 0; track < tracks; track++) {
            boolean doubled = track > 0 && random.nextInt(5) == 0;
            stored[track] = doubled ? stored[track - 1] : recording.stored(odd(random, recording.samples, rate));
            recording.put(InventedRecording.name(track + 1), stored[track]);
        }
        if (random.nextInt(4) == 0) {
            byte[] together = new byte[tracks * stored[0].length];
            for (int i = 0; i < recording.samples; i++) {
                for (int track = 0; track < tracks; track++) {
                    System.arraycopy(stored[track], i * bytes, together, (i * tracks + track) * bytes, bytes);
                }
            }
            recording.files.clear();
            WaveFormat mono = recording.mono;
            recording.put(
                    "take/all.wav", new WaveFormat(tracks, rate, mono.isFloat(), bytes, mono.validBits()), together);
        }
        assertThat(recording.inspected().findings())
                .as("seed %d", seed)
                .noneMatch(one -> one.weight() == Finding.Weight.FAULT);
    }

    private static float[] odd(SplittableRandom random, int samples, int rate) {
        float[] values = new float[samples];
        double turn = 2 * Math.PI * 30 * Math.pow(2, random.nextDouble(8)) / rate;
        float level = (float) Math.pow(10, -random.nextDouble(3));
        int kind = random.nextInt(8);
        int period = random.nextInt(2, kind == 2 ? 2000 : rate);
        int on = random.nextInt(1, period);
        double gain = 1;
        boolean open = true;
        for (int i = 0, since = 0, length = period; i < samples; i++, since++) {
            if (since == length) {
                since = 0;
                open = !open;
                length = random.nextInt(1, rate);
            }
            double tone = Math.sin(turn * i);
            values[i] = level
                    * (float)
                            switch (kind) {
                                // songs: in and out in some shape, exact silence between
                                case 0 ->
                                    open
                                            ? tone
                                                    * Math.pow(
                                                            Math.min(1, 5.0 * Math.min(since, length - since) / rate),
                                                            on % 4)
                                            : 0;
                                case 1 -> open ? 1 : 0; // direct voltage, switched
                                case 2 -> i % period < on ? 1 : -1; // pulses
                                case 3 ->
                                    i % period < on
                                            ? Math.sin(turn * (i % period))
                                            : 0; // the same note again and again
                                case 4 -> Math.max(-1, Math.min(1, 4 * tone + random.nextDouble())); // overdriven
                                case 5 -> random.nextInt(-2, 3) * 0x1p-23 / level; // next to nothing
                                case 6 -> open ? random.nextDouble(-1, 1) : 0; // a gate
                                default -> {
                                    // a mixer's mute, ramped over one of its blocks
                                    open = (i % 64 == 0 && random.nextInt(100) == 0) ? !open : open;
                                    gain += Math.max(-1 / 64.0, Math.min(1 / 64.0, (open ? 1 : 0) - gain));
                                    yield gain * tone;
                                }
                            };
        }
        return values;
    }

    @Test
    void nothingIsCalledLostInWhatOnlySoundsOdd() {
        LongStream.range(0, 30).forEach(SoundRecordingsTest::nothingIsCalledLostIn);
    }

    @Tag("nightly")
    @ParameterizedTest
    @ValueSource(longs = {1_000, 1_250, 1_500, 1_750})
    void norInAThousandOfThem(long first) {
        LongStream.range(first, first + 250).parallel().forEach(SoundRecordingsTest::nothingIsCalledLostIn);
    }

    /** 1,500 Hz crosses zero at every 16th sample of 48 kHz, 750 Hz at every 32nd. */
    @ParameterizedTest
    @ValueSource(ints = {750, 1500, 3000, 6000})
    void aToneThatCrossesZeroAtRoundPlacesIsNoSilence(int hz) {
        InventedRecording recording = new InventedRecording(hz, 48_000, 3, false, 4 * 48_000);
        float[] both = new float[2 * recording.samples];
        for (int i = 0; i < recording.samples; i++) {
            boolean tone = i > 50_000 && i < 90_000;
            both[2 * i] = (float) (0.3 * Math.sin(2 * Math.PI * (i * (long) hz % 48_000) / 48_000));
            both[2 * i + 1] = tone ? both[2 * i] : (float) (0.3 * Math.sin(0.0333 * i));
        }
        recording.put("both.wav", new WaveFormat(2, 48_000, false, 3, 24), recording.stored(both));

        Inspection inspection = recording.inspected();

        assertThat(inspection.findings()).isEmpty();
        assertThat(inspection.takes().get(0).tracks()).noneMatch(InspectedTrack::silent);
    }

    /** As in overdriven audio, whose flat tops are as they were before now and then, and not what lies between them. */
    @Test
    void whatIsAsBeforeAtBothEndsOnlyIsNoRepeat() throws IOException {
        int block = 16_384 * 3;
        InventedRecording recording = new InventedRecording(3, 48_000, 3, false, 3 * 16_384);
        byte[] data = new byte[3 * block];
        recording.random.nextBytes(data);
        System.arraycopy(data, 0, data, block, 1000);
        System.arraycopy(data, block - 1000, data, 2 * block - 1000, 1000);
        DropoutCheck check = new DropoutCheck(
                new SampleFile(new InventedRecording.InMemory(data), 0, recording.samples, recording.mono));

        check.repeat(block + 8, 2 * block - 8, block);

        assertThat(check.dropouts()).isEmpty();
        System.arraycopy(data, 0, data, block, block);
        check.repeat(block + 8, 2 * block - 8, block);
        assertThat(check.dropouts()).singleElement().satisfies(one -> {
            assertThat(one.from()).isEqualTo(16_384);
            assertThat(one.length()).isEqualTo(16_384);
            assertThat(one.weight()).isEqualTo(Finding.Weight.FAULT);
        });
    }

    /** As a player makes it whose loop is a round number of samples long. */
    @ParameterizedTest
    @ValueSource(ints = {65_536, 131_072})
    void whatComesThreeTimesOrMoreIsNotCalledABlockWrittenTwice(int period) {
        for (int rounds : new int[] {3, 4, 5, 7}) {
            InventedRecording recording = new InventedRecording(period, 48_000, 3, false, rounds * period + 9999);
            float[] loop = new float[recording.samples];
            for (int i = 0; i < loop.length; i++) {
                loop[i] = i < period || i >= rounds * period
                        ? (float) (0.1 * recording.random.nextGaussian())
                        : loop[i - period];
            }
            recording.put(InventedRecording.name(1), recording.stored(loop));

            assertThat(recording.inspected().findings())
                    .as("%d rounds", rounds)
                    .allSatisfy(one -> assertThat(one.weight()).isNotEqualTo(Finding.Weight.FAULT));
        }
    }

    /** As a player makes it; at 140 beats a minute a bar of 48 kHz is this long, about as far as repeats are looked for closely. */
    @ParameterizedTest
    @ValueSource(ints = {20_000, 82_286, 90_000})
    void aLoopIsNotComparedAgainAndAgain(int period) throws IOException {
        int samples = 20 * 48_000;
        InventedRecording recording = new InventedRecording(period, 48_000, 3, false, samples);
        float[] loop = new float[samples];
        for (int i = 0; i < samples; i++) {
            loop[i] = i < period ? (float) (0.1 * recording.random.nextGaussian()) : loop[i - period];
        }
        byte[] data = recording.stored(loop);
        AtomicLong read = new AtomicLong();
        InventedRecording.InMemory bytes = new InventedRecording.InMemory(data);
        DropoutCheck check = new DropoutCheck(new SampleFile(
                new FileBytes() {
                    @Override
                    public long sizeBytes() {
                        return bytes.sizeBytes();
                    }

                    @Override
                    public int read(ByteBuffer target, long offset) {
                        int count = bytes.read(target, offset);
                        read.addAndGet(count);
                        return count;
                    }

                    @Override
                    public void close() {
                        bytes.close();
                    }
                },
                0,
                samples,
                recording.mono));
        List<long[]> told = new ArrayList<>();
        RawScan scan = new RawScan(recording.mono, new RawScan.Found() {
            @Override
            public void zeros(long from, long until) {}

            @Override
            public void erased(long from, long until) {}

            @Override
            public void repeat(long from, long until, long distance) {
                told.add(new long[] {from, until, distance});
            }
        });
        ByteBuffer all = ByteBuffer.allocateDirect(data.length).order(ByteOrder.LITTLE_ENDIAN);
        all.put(data);
        scan.block(all, data.length, 0);
        scan.end();
        for (long[] one : told) {
            check.repeat(one[0], one[1], one[2]);
        }

        assertThat(told).isNotEmpty();
        assertThat(read).hasValueLessThan(30L * data.length);
        assertThat(check.dropouts()).isEmpty();
    }
}

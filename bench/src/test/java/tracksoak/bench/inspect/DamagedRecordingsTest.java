package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.bench.timecode.TestSignal;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Every damage is found where it is. Each seed is a case of its own: 8 of each kind in each build, 200 at night. */
class DamagedRecordingsTest {

    private static final int RATE = 48_000;

    private static List<Finding> faults(InventedRecording recording) {
        return recording.inspected().findings().stream()
                .filter(one -> one.weight() == Finding.Weight.FAULT)
                .toList();
    }

    /** That only these kinds are faults, on that track. */
    private static List<Finding> only(InventedRecording recording, String track, FindingKind... kinds) {
        List<Finding> faults = faults(recording);
        assertThat(faults).extracting(Finding::kind).as("%s", faults).containsExactlyInAnyOrder(kinds);
        assertThat(faults).allSatisfy(one -> assertThat(one.tracks()).containsExactly(track));
        return faults;
    }

    private static byte[] without(byte[] data, int at, int count) {
        byte[] rest = Arrays.copyOf(data, data.length - count);
        System.arraycopy(data, at + count, rest, at, rest.length - at);
        return rest;
    }

    private static byte[] twice(byte[] data, int at, int count) {
        byte[] more = Arrays.copyOf(data, data.length + count);
        System.arraycopy(data, at - count, more, at, data.length - at + count);
        return more;
    }

    static IntStream few() {
        return IntStream.range(0, 8);
    }

    @ParameterizedTest
    @MethodSource("few")
    void aSignalTrackIsFollowedToTheSample(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = InventedRecording.ofSignal(seed, RATE, 3, 4, 4);
        int track = 1 + random.nextInt(4);
        String path = InventedRecording.name(track);
        String name = String.format(Locale.ROOT, "TR%02d", track);
        int at = RATE / 2 + random.nextInt(2 * RATE);
        int count = seed % 3 == 0 ? 1 : seed % 3 == 1 ? 4096 : 21_845;
        byte[] sound = recording.data(path);

        recording.put(path, without(sound, 3 * at, 3 * count));
        Finding missing = only(recording, name, FindingKind.SIGNAL_MISSING).get(0);
        recording.put(path, twice(sound, 3 * at, 3 * Math.min(at, count)));
        Finding repeated = only(recording, name, FindingKind.SIGNAL_REPEATED).get(0);
        byte[] stale = sound.clone();
        System.arraycopy(sound, 0, stale, 3 * at, 3 * 1024);
        recording.put(path, stale);
        Finding spoilt = only(recording, name, FindingKind.SIGNAL_SPOILT).get(0);
        System.arraycopy(sound, 0, stale, 3 * at, 3 * 8192);
        recording.put(path, stale);
        List<Finding> old = only(recording, name, FindingKind.SIGNAL_REPEATED, FindingKind.SIGNAL_MISSING);

        assertThat(missing.samples()).isEqualTo(count);
        assertThat(missing.atSample()).isBetween((long) at, at + 1L);
        assertThat(repeated.samples()).isEqualTo(Math.min(at, count));
        assertThat(repeated.atSample()).isBetween((long) at, at + 1L);
        assertThat(old).extracting(Finding::samples).containsExactly(8192.0, 8192.0);
        assertThat(spoilt.samples()).isCloseTo(1024, within(2.0));
        assertThat(spoilt.atSample()).isBetween((long) at, at + 1L);
    }

    @ParameterizedTest
    @MethodSource("few")
    void twoChunksOfASignalThatChangedPlacesAreOneMove(int seed) {
        InventedRecording recording = InventedRecording.ofSignal(seed, RATE, 3, 3, 4);
        byte[] sound = recording.data(InventedRecording.name(2));
        byte[] moved = sound.clone();
        int chunk = 3 * 16_384;
        System.arraycopy(sound, chunk, moved, 2 * chunk, chunk);
        System.arraycopy(sound, 2 * chunk, moved, chunk, chunk);
        recording.put(InventedRecording.name(2), moved);

        Finding move = only(recording, "TR02", FindingKind.SIGNAL_MOVED).get(0);

        assertThat(move.samples()).isEqualTo(16_384);
        assertThat(move.atSample()).isEqualTo(16_384);
    }

    @ParameterizedTest
    @MethodSource("few")
    void aTrackWithoutASignalThatLostAChunkOrASampleIsShorterThanTheOthers(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = InventedRecording.ofMusic(seed, RATE, 3, false, 32, 1.5);
        String path = InventedRecording.name(17);
        int count = seed % 2 == 0 ? 1 : 16_384;
        recording.put(path, without(recording.data(path), 3 * random.nextInt(RATE), 3 * count));

        Finding shorter = only(recording, "TR17", FindingKind.UNEQUAL_LENGTH).get(0);

        assertThat(shorter.samples()).isEqualTo(count);
        assertThat(shorter.sentence()).contains("TR17 ends at 0:00:01.", "before the others");
    }

    @ParameterizedTest
    @MethodSource("few")
    void aChunkOfZerosInPlaceOfAudioIsFound(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = loud(seed, 3);
        int chunk = new int[] {4096, 16_384, 65_536}[seed % 3];
        int shift = seed % 2 == 0 ? 44 : 0;
        byte[] data = recording.data(InventedRecording.name(2));
        int at = chunk * (1 + random.nextInt(data.length / chunk - 3)) - shift;
        Arrays.fill(data, at, at + chunk, (byte) 0);
        recording.put(InventedRecording.name(2), data);

        Finding zeros = only(recording, "TR02", FindingKind.ZEROS).get(0);

        assertThat(zeros.atSample()).isCloseTo(at / 3, within(1L));
        assertThat(zeros.samples()).isCloseTo(chunk / 3.0, within(2.0));
    }

    /** Silence is 128 in 8 bits, and of two signs in floats. */
    @ParameterizedTest
    @MethodSource("few")
    void aChunkOfSilenceIsFoundHoweverSilenceIsStored(int seed) {
        aChunkOfSilenceIsFound(seed, 1);
    }

    /** @param beside so many samples beside it may be zero as well */
    private static void aChunkOfSilenceIsFound(int seed, int beside) {
        Random random = Seeded.random(seed);
        InventedRecording small = new InventedRecording(seed, RATE, 1, false, 2 * RATE);
        byte[] bytes = new byte[small.samples];
        float[] music = small.music(0);
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) (128 + Math.round(400 * music[i]));
        }
        int at = 4096 * (1 + random.nextInt(20));
        Arrays.fill(bytes, at, at + 4096, (byte) 128);
        small.put(InventedRecording.name(1), bytes);
        InventedRecording floats = new InventedRecording(seed, RATE, 4, true, 2 * RATE);
        float[] values = floats.music(0);
        for (int i = at; i < at + 4096; i++) {
            values[i] = random.nextBoolean() ? 0f : -0f;
        }
        floats.put(InventedRecording.name(1), floats.stored(values));

        for (InventedRecording recording : List.of(small, floats)) {
            Finding zeros = only(recording, "TR01", FindingKind.ZEROS).get(0);
            assertThat(zeros.atSample()).isCloseTo(at, within((long) beside));
            assertThat(zeros.samples()).isCloseTo(4096, within(beside + 1.0));
        }
    }

    /** Audio of so few steps as in 8 bits is zero now and then, also right beside a chunk that was lost. */
    @ParameterizedTest
    @ValueSource(ints = {57, 194, 206, 226, 234})
    void zerosBesideALostChunkDoNotHideIt(int seed) {
        aChunkOfSilenceIsFound(seed, 3);
    }

    /** In a minute clocks 200 millionths apart run 12 ms apart, which are not missing. */
    @ParameterizedTest
    @ValueSource(doubles = {-200, 200})
    void lateInARecordingThroughACableWhatIsMissingOrRepeatedIsToldToTheMillisecond(double ppm) {
        InventedRecording recording = new InventedRecording(1, RATE, 3, false, 60 * RATE);
        float[] signal = new float[61 * RATE];
        new TestSignal(RATE).fill(0, signal, signal.length);
        Random random = new Random(45);
        float[] heard = new float[recording.samples];
        for (int i = 0; i < heard.length; i++) {
            double t = 0.4 + i / (1 + ppm * 1e-6);
            int n = (int) t;
            double value = signal[n] + (signal[n + 1] - signal[n]) * (t - n);
            heard[i] = (float) (-0.7 * value + 1e-3 * random.nextGaussian());
        }
        byte[] data = recording.stored(heard);
        recording.put(InventedRecording.name(1), without(data, 3 * 50 * RATE, 3 * 3000));
        recording.put(InventedRecording.name(2), data);
        recording.put(InventedRecording.name(3), twice(data, 3 * 50 * RATE, 3 * 3000));

        List<Finding> found = recording.inspected().findings();

        assertThat(found)
                .filteredOn(one -> one.kind() == FindingKind.SIGNAL_MISSING)
                .singleElement()
                .satisfies(one -> assertThat(one.samples()).isCloseTo(3000, within(48.0)));
        assertThat(found)
                .filteredOn(one -> one.kind() == FindingKind.SIGNAL_REPEATED)
                .singleElement()
                .satisfies(one -> assertThat(one.samples()).isCloseTo(3000, within(48.0)));
    }

    /** To the last sample, and from the first. */
    @ParameterizedTest
    @MethodSource("few")
    void aLossInTheLastOrFirstMomentIsToldWhereTheTrackGoesOn(int seed) {
        InventedRecording recording = InventedRecording.ofSignal(seed, RATE, 3, 4, 2);
        byte[] sound = recording.data(InventedRecording.name(3));
        int count = 5 + 500 * seed;
        byte[] late = sound.clone();
        Arrays.fill(late, late.length - 3 * count, late.length, (byte) 0);
        recording.put(InventedRecording.name(3), late);
        Finding ends = only(recording, "TR03", FindingKind.SIGNAL_ENDS).get(0);
        byte[] early = sound.clone();
        Arrays.fill(early, 0, 3 * count, (byte) 0);
        recording.put(InventedRecording.name(3), early);

        assertThat(ends.samples()).isEqualTo(count);
        assertThat(ends.atSample()).isEqualTo(2L * RATE - count);
        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.SIGNAL_APART);
            assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
            assertThat(one.samples()).isEqualTo(count);
        });
    }

    /** Where the signal ends before the recording does, all tracks agree. */
    @Test
    void aPlayerThatStopsEarlierIsNoLoss() {
        InventedRecording recording = InventedRecording.ofSignal(3, RATE, 3, 4, 2);
        for (int track = 1; track <= 4; track++) {
            byte[] data = recording.data(InventedRecording.name(track));
            Arrays.fill(data, data.length - 3 * 2400, data.length, (byte) 0);
            recording.put(InventedRecording.name(track), data);
        }

        assertThat(recording.inspected().findings()).isEmpty();
    }

    /** Numbers of takes look like numbers of splits where the second take is the shorter one. */
    @Test
    void aShorterSecondTakeIsNoFault() {
        InventedRecording long1 = loud(5, 4);
        InventedRecording both = new InventedRecording(5, RATE, 3, false, RATE);
        for (int track = 1; track <= 4; track++) {
            both.put(split(track, 1), long1.data(InventedRecording.name(track)));
            both.put(split(track, 2), both.stored(both.music(0)));
        }

        assertThat(both.inspected().findings())
                .isNotEmpty()
                .allSatisfy(one -> assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN));
    }

    /** What a drive gives where a cluster was never written: an older recording of the same signal, of music, or of noise. */
    @ParameterizedTest
    @MethodSource("few")
    void aClusterOfAnOlderRecordingIsFoundInTheSignal(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = InventedRecording.ofSignal(seed, RATE, 3, 4, 4);
        InventedRecording older = seed % 4 == 0
                ? InventedRecording.ofMusic(seed + 100, RATE, 3, false, 4, 4)
                : InventedRecording.ofSignal(seed + 100, RATE, 3, 4, 4);
        int track = 1 + random.nextInt(4);
        byte[] sound = recording.data(InventedRecording.name(track));
        byte[] stale = older.data(InventedRecording.name(track));
        if (seed % 4 == 1) {
            random.nextBytes(stale);
        }
        int count = 4096 << random.nextInt(5);
        int at = (100 + random.nextInt(15)) * 4096 - 44;
        System.arraycopy(stale, at, sound, at, count);
        recording.put(InventedRecording.name(track), sound);

        List<Finding> faults = faults(recording);

        assertThat(faults).isNotEmpty().allSatisfy(one -> {
            assertThat(one.tracks()).containsExactly(String.format(Locale.ROOT, "TR%02d", track));
            assertThat(one.kind().name()).startsWith("SIGNAL_");
        });
        assertThat(faults.get(0).atSample()).isBetween(at / 3 - 2L, at / 3 + 2L);
    }

    /** A piece of the first seconds in place of a later one is no new start, though the signal steps back to its beginning. */
    @ParameterizedTest
    @MethodSource("few")
    void anOldBlockFromTheBeginningOfTheSignalIsARepeat(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = new InventedRecording(seed, RATE, 3, false, 8 * RATE);
        float[] signal = new float[recording.samples];
        new TestSignal(RATE).fill(0, signal, signal.length);
        int at = 5 * RATE + random.nextInt(RATE);
        int from = random.nextInt(RATE);
        int count = 8192 * (1 + random.nextInt(4));
        System.arraycopy(signal.clone(), from, signal, at, count);
        for (int track = 1; track <= 3; track++) {
            recording.put(InventedRecording.name(track), recording.stored(signal));
        }

        List<Finding> faults = faults(recording);

        assertThat(faults)
                .extracting(Finding::kind)
                .containsExactly(FindingKind.SIGNAL_REPEATED, FindingKind.SIGNAL_MISSING);
        assertThat(faults).extracting(Finding::samples).containsExactly((double) count, (double) count);
        assertThat(faults.get(0).atSample()).isBetween((long) at, at + 1L);
        assertThat(recording.inspected().findings()).noneMatch(one -> one.kind() == FindingKind.SIGNAL_RESTARTED);
    }

    /** A drive that refuses one block: that block is told, and neither the rest of the file nor silence in its place. */
    @ParameterizedTest
    @MethodSource("few")
    void ofAFileWithABlockThatCannotBeReadOnlyThatBlockIsToldAsMissing(int seed) throws Exception {
        InventedRecording recording = loud(seed, 1);
        byte[] file = recording.file(InventedRecording.name(1));
        int bad = 4096 * (1 + Seeded.random(seed).nextInt(100));
        RecordedFile.Source refusing = () -> new RefusingFile(file, bad, 4096);
        RecordedFile recorded =
                new RecordedFile("TR01.wav", WaveHeaderReader.read(new InventedRecording.InMemory(file)), refusing);
        Inspection inspection = new Inspection(
                new Recordings(List.of(recorded), List.of(), 0, null, false, "", ""), (done, all) -> {}, () -> false);
        inspection.run();

        assertThat(inspection.findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.UNREADABLE);
            assertThat(one.atSample()).isBetween((bad - 44) / 3 - 1500L, (bad - 44) / 3 + 1L);
            assertThat(one.samples()).isBetween(4096 / 3.0, 3 * 4096 / 3.0);
        });
    }

    /** A file on a drive that refuses to read some bytes, as one with a bad sector does. */
    private static final class RefusingFile implements FileBytes {

        private final byte[] bytes;
        private final int bad;
        private final int count;

        RefusingFile(byte[] bytes, int bad, int count) {
            this.bytes = bytes;
            this.bad = bad;
            this.count = count;
        }

        @Override
        public long sizeBytes() {
            return bytes.length;
        }

        @Override
        public int read(ByteBuffer target, long offset) throws IOException {
            int wanted = (int) Math.min(target.remaining(), bytes.length - offset);
            if (wanted <= 0) {
                return -1;
            }
            int until = offset < bad ? (int) Math.min(wanted, bad - offset) : wanted;
            if (offset >= bad && offset < bad + count) {
                throw new IOException("Input/output error");
            }
            target.put(bytes, (int) offset, until);
            return until;
        }

        @Override
        public void close() {
            // nothing is open
        }
    }

    @ParameterizedTest
    @MethodSource("few")
    void aBlockInPlaceOfTheNextOrOfALaterOneIsFound(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = loud(seed, 3);
        int chunk = new int[] {4096, 16_384, 65_536}[seed % 3];
        byte[] data = recording.data(InventedRecording.name(2));
        int away = chunk * (1 + random.nextInt(3));
        int at = away + chunk * random.nextInt((data.length - away) / chunk - 1);
        System.arraycopy(data, at - away, data, at, chunk);
        recording.put(InventedRecording.name(2), data);

        Finding repeated = only(recording, "TR02", FindingKind.REPEATED_BLOCK).get(0);

        assertThat(repeated.atSample()).isCloseTo(at / 3, within(2L));
        assertThat(repeated.samples()).isCloseTo(chunk / 3.0, within(3.0));
    }

    /** A recording whose tracks are loud from beginning to end. */
    private static InventedRecording loud(long seed, int tracks) {
        InventedRecording recording = new InventedRecording(seed, RATE, 3, false, 4 * RATE);
        for (int track = 1; track <= tracks; track++) {
            recording.put(InventedRecording.name(track), recording.stored(recording.music(0)));
        }
        return recording;
    }

    @Test
    void filesOfWhichNothingIsLeftAreSaidTogether() {
        InventedRecording recording = loud(1, 6);
        recording.files.put(InventedRecording.name(4), new byte[0]);
        recording.files.put(InventedRecording.name(5), new byte[0]);

        assertThat(faults(recording))
                .filteredOn(one -> one.kind() == FindingKind.HEADER_CUT)
                .singleElement()
                .satisfies(one -> assertThat(one.sentence()).contains(", each of them: it is empty. "));
    }

    @Test
    void aHeaderThatWasNeverFinishedACutFileAndAudioBehindTheEndAreFound() {
        InventedRecording recording = loud(1, 6);
        byte[] never = recording.file(InventedRecording.name(1));
        ByteBuffer.wrap(never).order(ByteOrder.LITTLE_ENDIAN).putInt(4, 0).putInt(40, 0);
        byte[] cut = recording.file(InventedRecording.name(2));
        recording.files.put(InventedRecording.name(2), Arrays.copyOf(cut, cut.length - 3 * RATE));
        byte[] behind = recording.file(InventedRecording.name(3));
        ByteBuffer.wrap(behind).order(ByteOrder.LITTLE_ENDIAN).putInt(40, 3 * 3 * RATE);
        recording.files.put(InventedRecording.name(4), Arrays.copyOf(behind, 20));

        List<Finding> faults = faults(recording);

        assertThat(faults)
                .extracting(Finding::kind)
                .contains(
                        FindingKind.HEADER_UNFINISHED,
                        FindingKind.FILE_CUT,
                        FindingKind.AUDIO_BEHIND,
                        FindingKind.HEADER_CUT);
        assertThat(faults)
                .filteredOn(one -> one.kind() == FindingKind.FILE_CUT)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.atS()).isEqualTo(3.0);
                    assertThat(one.samples()).isEqualTo(RATE);
                    assertThat(one.sentence()).contains("0:00:03.000");
                });
    }

    @Test
    void samplesThatAreNoNumberAreFound() {
        InventedRecording recording = InventedRecording.ofMusic(4, RATE, 4, true, 3, 2);
        byte[] data = recording.data(InventedRecording.name(2));
        ByteBuffer.wrap(data).order(ByteOrder.LITTLE_ENDIAN).putFloat(4 * 70_000, Float.NaN);
        ByteBuffer.wrap(data).order(ByteOrder.LITTLE_ENDIAN).putFloat(4 * 80_000, Float.POSITIVE_INFINITY);
        recording.put(InventedRecording.name(2), data);

        Finding found = only(recording, "TR02", FindingKind.NOT_A_NUMBER).get(0);

        assertThat(found.atSample()).isEqualTo(70_000);
        assertThat(found.samples()).isEqualTo(2);
    }

    /** 64 KiB are no whole number of samples of 24 bits. */
    @ParameterizedTest
    @MethodSource("few")
    void aChunkThatIsNoWholeNumberOfSamplesIsFoundWhereItIsMissing(int seed) {
        Random random = Seeded.random(seed);
        InventedRecording recording = loud(seed, 3);
        byte[] data = recording.data(InventedRecording.name(1));
        int at = 65_536 * (1 + random.nextInt(data.length / 65_536 - 2));
        recording.put(InventedRecording.name(1), without(data, at, 65_536));

        Finding found = only(
                        recording, "TR01", FindingKind.SHIFTED, FindingKind.BROKEN_SAMPLE, FindingKind.UNEQUAL_LENGTH)
                .get(0);

        assertThat(found.kind()).isEqualTo(FindingKind.SHIFTED);
        assertThat(found.atSample()).isCloseTo(at / 3, within(RATE / 20L));
    }

    /** Splits with time references, of two tracks. */
    private static InventedRecording splits(int seed) {
        InventedRecording recording = new InventedRecording(seed, RATE, 3, false, RATE);
        for (int track = 1; track <= 3; track++) {
            for (int split = 1; split <= 3; split++) {
                byte[] data = recording.stored(recording.music(0));
                timed(recording, track, split, 1_000L * RATE + (split - 1L) * RATE, data);
            }
        }
        return recording;
    }

    private static String split(int track, int split) {
        return String.format(Locale.ROOT, "show/TR%02d_%03d.wav", track, split);
    }

    private static void timed(InventedRecording recording, int track, int split, long reference, byte[] data) {
        recording.put(split(track, split), data);
        byte[] plain = recording.file(split(track, split));
        ByteBuffer file = ByteBuffer.allocate(plain.length + 610).order(ByteOrder.LITTLE_ENDIAN);
        file.put(plain, 0, 12).put(new byte[] {'b', 'e', 'x', 't'}).putInt(602);
        file.putLong(20 + 338, reference).position(12 + 610).put(plain, 12, plain.length - 12);
        file.putInt(4, file.capacity() - 8);
        recording.files.put(split(track, split), file.array());
    }

    @Test
    void splitsThatFollowEachOtherAreOneTrack() {
        Inspection inspection = splits(1).inspected();

        assertThat(inspection.findings()).isEmpty();
        assertThat(inspection.takes()).singleElement().satisfies(take -> {
            assertThat(take.seconds()).isEqualTo(3.0);
            assertThat(take.tracks()).hasSize(3).allSatisfy(track -> {
                assertThat(track.splits()).isEqualTo(3);
                assertThat(track.samples()).isEqualTo(3L * RATE);
            });
        });
    }

    @Test
    void aGapAnOverlapASwapAndAMissingSplitAreFound() {
        InventedRecording gap = splits(2);
        timed(gap, 2, 2, 1_001L * RATE, gap.stored(Arrays.copyOf(gap.music(0), RATE - 500)));
        assertThat(faults(gap)).extracting(Finding::kind).contains(FindingKind.GAP);
        assertThat(faults(gap))
                .filteredOn(one -> one.kind() == FindingKind.GAP)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.samples()).isEqualTo(500);
                    assertThat(one.atSample()).isEqualTo(2L * RATE - 500);
                    assertThat(one.tracks()).containsExactly("TR02");
                });

        InventedRecording overlap = splits(3);
        timed(overlap, 1, 3, 1_002L * RATE - 700, overlap.stored(overlap.music(0)));
        assertThat(faults(overlap)).extracting(Finding::kind).containsExactly(FindingKind.OVERLAP);

        InventedRecording swapped = splits(4);
        byte[] second = swapped.file(split(3, 2));
        swapped.files.put(split(3, 2), swapped.file(split(3, 3)));
        swapped.files.put(split(3, 3), second);
        only(swapped, "TR03", FindingKind.SWAPPED);

        InventedRecording missing = splits(5);
        missing.files.remove(split(2, 2));
        assertThat(faults(missing)).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.MISSING_SPLIT);
            assertThat(one.samples()).isEqualTo(RATE);
            assertThat(one.tracks()).containsExactly("TR02");
        });

        InventedRecording late = splits(6);
        timed(late, 1, 1, 1_000L * RATE + 4_800, late.stored(Arrays.copyOf(late.music(0), RATE - 4_800)));
        only(late, "TR01", FindingKind.UNEQUAL_START);
    }

    /** Without time references the signal, and without that the audio, tells that two files changed places. */
    @ParameterizedTest
    @MethodSource("few")
    void aSwapOfSplitsWithoutTimesIsFound(int seed) {
        InventedRecording signal = cut(InventedRecording.ofSignal(seed, RATE, 3, 3, 3));
        swap(signal, 2, 1, 2);
        only(signal, "TR02", FindingKind.SIGNAL_MOVED);

        InventedRecording music = cut(loud(seed, 4));
        assertThat(music.inspected().findings()).isEmpty();
        for (int track = 1; track <= 4; track++) {
            swap(music, track, 2, 3);
        }
        // on how many tracks it shows depends on what they hold: on one it is something to listen to
        assertThat(music.inspected().findings())
                .isNotEmpty()
                .allSatisfy(one -> assertThat(one.kind()).isEqualTo(FindingKind.SEAM));
    }

    /** Low notes go on from file to file as they hardly would by chance. */
    @Test
    void filesOfOneTrackThatFollowEachOtherAreSplitsAndTwoThatChangedPlacesAreAFault() {
        InventedRecording one = lowNotes(1);
        assertThat(one.inspected().findings()).isEmpty();
        assertThat(one.inspected().takes())
                .singleElement()
                .satisfies(take -> assertThat(take.tracks())
                        .singleElement()
                        .satisfies(track -> assertThat(track.splits()).isEqualTo(3)));

        InventedRecording four = lowNotes(4);
        swap(four, 3, 1, 2);

        assertThat(four.inspected().findings()).hasSize(2).allSatisfy(seam -> {
            assertThat(seam.kind()).isEqualTo(FindingKind.SEAM);
            assertThat(seam.weight()).isEqualTo(Finding.Weight.FAULT);
            assertThat(seam.tracks()).containsExactly("TR03");
        });
        assertThat(four.inspected().findings().get(0).atSample()).isEqualTo(RATE);
    }

    private static InventedRecording lowNotes(int tracks) {
        InventedRecording recording = new InventedRecording(1, RATE, 3, false, 3 * RATE - 700);
        for (int track = 1; track <= tracks; track++) {
            float[] values = new float[recording.samples];
            for (int i = 0; i < values.length; i++) {
                values[i] = (float) (0.5 * Math.sin(1 + track + 0.0071 * i) + 0.2 * Math.sin(0.0173 * i));
            }
            byte[] data = recording.stored(values);
            for (int split = 1; split <= 3; split++) {
                int end = Math.min(data.length, 3 * RATE * split);
                recording.put(split(track, split), Arrays.copyOfRange(data, 3 * RATE * (split - 1), end));
            }
        }
        return recording;
    }

    /** Nothing tells whether they are two splits or two tracks, one of which lost something. */
    @Test
    void aFewFilesWithAShorterLastOneThatMayBeSplitsAreNoFault() {
        InventedRecording recording = new InventedRecording(1, RATE, 3, false, RATE);
        byte[] data = recording.stored(recording.music(0));
        recording.put(split(1, 1), data);
        recording.put(split(1, 2), Arrays.copyOf(recording.stored(recording.music(0)), data.length - 300));

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.UNCERTAIN);
            assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
        });
    }

    @ParameterizedTest
    @ValueSource(ints = {1800, 3000, 8000, 40_008})
    void aStretchWrittenTwiceIsFoundHoweverLongItIsAndWhereverItBegins(int bytes) {
        for (int seed = 0; seed < 40; seed++) {
            InventedRecording recording = loud(seed, 1);
            byte[] data = recording.data(InventedRecording.name(1));
            int at = 3 * (20_000 + Seeded.random(seed).nextInt(60_000));
            System.arraycopy(data, at - bytes, data, at, bytes);
            recording.put(InventedRecording.name(1), data);

            assertThat(recording.inspected().findings())
                    .as("seed %d", seed)
                    .anySatisfy(one -> assertThat(one.kind()).isEqualTo(FindingKind.REPEATED_BLOCK));
        }
    }

    /** There a sample beside the step fits both sides by chance. */
    @Test
    void aSampleThatFitsByChanceBesideASwapIsNoRepeat() {
        aSwapOfSplitsWithoutTimesIsFound(7042);
    }

    /** A-law, format 6 of RIFF: nothing speaks against it but that it is not read here. */
    @Test
    void aFileWhoseSamplesAreStoredInAWayNotKnownHereIsNoFault() {
        InventedRecording recording = loud(1, 2);
        byte[] other = recording.file(InventedRecording.name(2));
        ByteBuffer.wrap(other)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putShort(20, (short) 6)
                .putShort(32, (short) 1)
                .putShort(34, (short) 8);

        Inspection inspection = recording.inspected();

        assertThat(inspection.findings()).singleElement().satisfies(one -> {
            assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
            assertThat(one.sentence())
                    .isEqualTo("take/TR02.wav: cannot be read (its samples are of a kind that is not known here:"
                            + " format 6, 8 bits).");
        });
    }

    private static void swap(InventedRecording recording, int track, int one, int other) {
        byte[] first = recording.file(split(track, one));
        recording.files.put(split(track, one), recording.file(split(track, other)));
        recording.files.put(split(track, other), first);
    }

    /** The same recording in files of a second. */
    private static InventedRecording cut(InventedRecording whole) {
        InventedRecording splits = new InventedRecording(1, RATE, 3, false, RATE);
        for (int track = 1; track <= whole.files.size(); track++) {
            byte[] data = whole.data(InventedRecording.name(track));
            for (int split = 1; 3 * RATE * split <= data.length; split++) {
                splits.put(split(track, split), Arrays.copyOfRange(data, 3 * RATE * (split - 1), 3 * RATE * split));
            }
        }
        return splits;
    }

    /** Tracks that share a file. */
    @Test
    void oneTrackOfSeveralInAFileIsFollowedToTheSample() {
        InventedRecording recording = InventedRecording.ofSignal(9, RATE, 3, 4, 3);
        InventedRecording together = new InventedRecording(9, RATE, 3, false, 3 * RATE);
        byte[] frames = new byte[4 * 3 * 3 * RATE];
        for (int track = 0; track < 4; track++) {
            byte[] data = recording.data(InventedRecording.name(track + 1));
            if (track == 2) {
                data = Arrays.copyOf(without(data, 3 * 60_000, 3), data.length);
            }
            for (int i = 0; i < 3 * RATE; i++) {
                System.arraycopy(data, 3 * i, frames, (4 * i + track) * 3, 3);
            }
        }
        together.put("all.wav", new WaveFormat(4, RATE, false, 3, 24), frames);

        List<Finding> faults = faults(together);

        assertThat(faults).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.SIGNAL_MISSING);
            assertThat(one.tracks()).containsExactly("all #3");
            assertThat(one.atSample()).isEqualTo(60_000);
            assertThat(one.samples()).isEqualTo(1);
        });
    }

    /** As a line check leaves it before or inside a show. */
    @ParameterizedTest
    @ValueSource(ints = {2, 8, 13, 29, 41})
    void aSignalOfSecondsAnywhereInATrackIsFollowed(int beginS) {
        for (int channels = 1; channels <= 3; channels += 2) {
            InventedRecording recording = new InventedRecording(beginS, RATE, 3, false, 60 * RATE);
            float[] all = new float[channels * recording.samples];
            int begin = beginS * RATE + 1234;
            float[] signal = new float[4 * RATE];
            new TestSignal(RATE).fill(77, signal, signal.length);
            for (int channel = 0; channel < channels; channel++) {
                float[] track = recording.music(0);
                System.arraycopy(signal, 0, track, begin, signal.length);
                if (channel == channels - 1) {
                    System.arraycopy(signal, 2 * RATE + 480, track, begin + 2 * RATE, 2 * RATE - 480);
                }
                for (int i = 0; i < track.length; i++) {
                    all[i * channels + channel] = track[i];
                }
            }
            recording.put("take.wav", new WaveFormat(channels, RATE, false, 3, 24), recording.stored(all));

            List<Finding> faults = faults(recording);

            String track = channels == 1 ? "take" : "take #3";
            assertThat(faults).singleElement().satisfies(one -> {
                assertThat(one.kind()).isEqualTo(FindingKind.SIGNAL_MISSING);
                assertThat(one.tracks()).containsExactly(track);
                assertThat(one.atSample()).isBetween(begin + 2L * RATE, begin + 2L * RATE + 1);
                assertThat(one.samples()).isEqualTo(480);
            });
        }
    }

    @Test
    void whatIsLostBehindTheEndOfASignalIsFoundAsWell() {
        InventedRecording recording = new InventedRecording(5, RATE, 3, false, 20 * RATE);
        float[] track = recording.music(0);
        float[] signal = new float[5 * RATE];
        new TestSignal(RATE).fill(77, signal, signal.length);
        System.arraycopy(signal, 0, track, 0, signal.length);
        byte[] data = recording.stored(track);
        Arrays.fill(data, 4096 * 400, 4096 * 416, (byte) 0);
        recording.put(InventedRecording.name(1), data);

        Finding zeros = only(recording, "TR01", FindingKind.ZEROS).get(0);

        assertThat(zeros.atSample()).isCloseTo(4096 * 400 / 3, within(1L));
    }

    /** Erased memory of some kinds has every bit set, which is all but silence. */
    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4})
    void blocksOfErasedMemoryInPlaceOfAudioAreFound(int bytes) {
        for (int channels = 1; channels <= 2; channels++) {
            for (int head = 0; head <= 44; head += 44) {
                InventedRecording recording = new InventedRecording(bytes, RATE, bytes, false, channels * 2 * RATE);
                byte[] data = recording.stored(recording.music(0));
                Arrays.fill(data, 4096 * 20 - head, 4096 * (20 + bytes - 1) - head, (byte) -1);
                recording.put("take/TR01.wav", new WaveFormat(channels, RATE, false, bytes, 8 * bytes), data);

                List<Finding> faults = faults(recording);

                assertThat(faults).singleElement().satisfies(one -> {
                    assertThat(one.kind()).isEqualTo(FindingKind.ERASED);
                    assertThat(one.trackCount()).isEqualTo(data.length / 2 / RATE / bytes);
                });
            }
        }
    }

    /** A converter that rests one step below zero. */
    @Test
    void aMuteThatRestsOneStepBelowZeroIsNothing() {
        InventedRecording recording = new InventedRecording(4, RATE, 3, false, 4 * RATE);
        float[] muted = recording.music(0);
        Arrays.fill(muted, RATE + 17, 2 * RATE + 1234, -1f / (1 << 23));
        recording.put(InventedRecording.name(1), recording.stored(muted));
        Arrays.fill(muted, -1f / (1 << 23));
        recording.put(InventedRecording.name(2), recording.stored(muted));

        assertThat(faults(recording)).isEmpty();
    }

    /** Nobody knows what a file holds that this user may not read, so its track has neither lost it nor passed. */
    @ParameterizedTest
    @CsvSource({
        "1,true,false",
        "2,true,false",
        "3,true,false",
        "1,false,false",
        "2,false,false",
        "3,false,false",
        "1,false,true",
        "2,false,true",
        "3,false,true",
        "1,true,true",
        "2,true,true",
        "3,true,true"
    })
    void aSplitThatThisUserMayNotReadIsNoLossOfItsTrack(int split, boolean timed, boolean signal) {
        InventedRecording recording = cut(
                signal
                        ? InventedRecording.ofSignal(2, RATE, 3, 3, 3)
                        : InventedRecording.ofMusic(2, RATE, 3, false, 3, 3));
        for (int track = 1; track <= 3 && timed; track++) {
            for (int one = 1; one <= 3; one++) {
                timed(recording, track, one, RATE * (3600L + one - 1), recording.data(split(track, one)));
            }
        }
        recording.notAllowed.add(split(2, split));

        List<Finding> findings = recording.inspected().findings();

        assertThat(findings)
                .filteredOn(one -> one.weight() != Finding.Weight.NOTE)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.kind()).isEqualTo(FindingKind.NOT_LOOKED_AT);
                    assertThat(one.tracks()).containsExactly(split(2, split));
                });
        recording.notAllowed.clear();
        recording.files.remove(split(2, split));
        assertThat(recording.inspected().findings())
                .as("the same where it is not there at all")
                .anyMatch(one -> one.weight() != Finding.Weight.NOTE);
    }

    @Test
    void aLossElsewhereThanWhereASplitMayNotBeReadIsAFaultAllTheSame() {
        InventedRecording recording = cut(InventedRecording.ofSignal(2, RATE, 3, 3, 4));
        recording.notAllowed.add(split(2, 2));
        byte[] lossy = recording.data(split(2, 4));
        recording.put(split(2, 4), Arrays.copyOf(without(lossy, 3 * 20_000, 3 * 4096), lossy.length));
        recording.files.remove(split(3, 3));

        assertThat(faults(recording))
                .extracting(Finding::kind)
                .contains(FindingKind.SIGNAL_MISSING, FindingKind.MISSING_SPLIT);
    }

    @Test
    void aFirstFileThatIsGoneOnAllTracksLeavesNoPass() {
        InventedRecording recording = cut(InventedRecording.ofMusic(3, RATE, 3, false, 3, 4));
        for (int track = 1; track <= 3; track++) {
            recording.files.remove(split(track, 1));
        }

        assertThat(recording.inspected().findings())
                .filteredOn(one -> one.weight() == Finding.Weight.LISTEN)
                .extracting(Finding::sentence)
                .contains("show: the files begin with number 2. The first file may be gone, or the recorder counts on"
                        + " from a take before.");
    }

    @Test
    void aSplitOfAllTracksThatHoldsOldAudioBesidesIsNoNewTakeForCertain() {
        InventedRecording recording = cut(InventedRecording.ofMusic(3, RATE, 3, false, 3, 4));
        for (int track = 1; track <= 3; track++) {
            byte[] second = recording.data(split(track, 2));
            byte[] third = recording.data(split(track, 3));
            byte[] longer = Arrays.copyOf(Arrays.copyOfRange(second, 3 * (RATE - 4096), 3 * RATE), 3 * (RATE + 4096));
            System.arraycopy(third, 0, longer, 3 * 4096, third.length);
            recording.put(split(track, 3), longer);
        }

        List<Finding> found = recording.inspected().findings();

        assertThat(found)
                .filteredOn(one -> one.kind() == FindingKind.UNCERTAIN)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
                    assertThat(one.sentence()).contains("both may be one, with audio missing or there twice");
                });
    }

    @Tag("nightly")
    @ParameterizedTest
    @MethodSource("many")
    void allOfItWithManySeeds(int seed) {
        aSignalTrackIsFollowedToTheSample(seed);
        twoChunksOfASignalThatChangedPlacesAreOneMove(seed);
        aTrackWithoutASignalThatLostAChunkOrASampleIsShorterThanTheOthers(seed);
        aChunkOfZerosInPlaceOfAudioIsFound(seed);
        aBlockInPlaceOfTheNextOrOfALaterOneIsFound(seed);
        aChunkThatIsNoWholeNumberOfSamplesIsFoundWhereItIsMissing(seed);
    }

    static Stream<Integer> many() {
        return IntStream.range(100, 288).boxed();
    }
}

package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Zeros that last until a file's end, or from its beginning, where the end or the beginning of a track may never have been written. */
class SilentEndsTest {

    private static final int RATE = 48_000;
    private static final int HEAD = 44;

    private static InventedRecording loud(long seed, int bytes, int tracks) {
        InventedRecording recording = new InventedRecording(seed, RATE, bytes, false, 2 * RATE + 77);
        for (int track = 1; track <= tracks; track++) {
            float[] values = new float[recording.samples];
            for (int i = 0; i < values.length; i++) {
                values[i] = (float) (0.1 * recording.random.nextGaussian());
            }
            recording.put(InventedRecording.name(track), recording.stored(values));
        }
        return recording;
    }

    private static void silence(InventedRecording recording, int track, int from, int until) {
        byte[] data = recording.data(InventedRecording.name(track));
        Arrays.fill(data, from, Math.min(until, data.length), (byte) 0);
        recording.put(InventedRecording.name(track), data);
    }

    private static void is(InventedRecording recording, Finding.Weight weight, String words) {
        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.ZEROS);
            assertThat(one.weight()).as(one.sentence()).isEqualTo(weight);
            assertThat(one.tracks()).containsExactly("TR02");
            assertThat(one.sentence()).contains(words).doesNotContain("inside the audio");
        });
    }

    static IntStream few() {
        return IntStream.range(0, 8);
    }

    @ParameterizedTest
    @MethodSource("few")
    void anEndThatIsZeroFromTheEdgeOfABlockOnIsListenedToWhereOtherTracksGoOn(int seed) {
        int bytes = 2 + seed % 3;
        InventedRecording recording = loud(seed, bytes, 3);
        int shift = seed % 2 == 0 ? HEAD : 0;
        silence(recording, 2, 4096 * (31 + seed) - shift, Integer.MAX_VALUE);

        is(recording, Finding.Weight.LISTEN, "to the end of its file");
    }

    @ParameterizedTest
    @MethodSource("few")
    void aBeginningThatIsZeroUpToTheEdgeOfABlockIsListenedToWhereOtherTracksSound(int seed) {
        int bytes = 2 + seed % 3;
        InventedRecording recording = loud(seed, bytes, 3);
        int shift = seed % 2 == 0 ? HEAD : 0;
        silence(recording, 2, 0, 4096 * (31 + seed) - shift);

        is(recording, Finding.Weight.LISTEN, "the beginning of its file");
    }

    @Test
    void whereAGateMakesSuchSilenceInsideAsWellItIsANote() {
        InventedRecording recording = loud(2, 3, 3);
        silence(recording, 2, 3 * 10_007, 3 * 30_011);
        silence(recording, 2, 4096 * 31 - HEAD, Integer.MAX_VALUE);

        assertThat(recording.inspected().findings())
                .hasSize(2)
                .allSatisfy(one -> assertThat(one.weight()).isEqualTo(Finding.Weight.NOTE));
    }

    @ParameterizedTest
    @ValueSource(ints = {61_740, 98_301, 123_456})
    void anEndThatIsZeroFromAnywhereElseIsANote(int from) {
        InventedRecording recording = loud(3, 3, 3);
        silence(recording, 2, from, Integer.MAX_VALUE);

        is(recording, Finding.Weight.NOTE, "to the end of its file");
    }

    /** Of several tracks in one file a block holds a piece of each. */
    @Test
    void tracksThatShareAFileAreHeldAgainstThoseOfOthers() {
        InventedRecording recording = loud(8, 3, 4);
        WaveFormat stereo = new WaveFormat(2, RATE, false, 3, 24);
        byte[] whole = new byte[6 * recording.samples];
        recording.random.nextBytes(whole);
        byte[] torn = whole.clone();
        Arrays.fill(torn, 4096 * 101 - HEAD, torn.length, (byte) 0);
        recording.files.clear();
        recording.put("take/one.wav", stereo, whole);
        recording.put("take/two.wav", stereo, torn);

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
            assertThat(one.trackCount()).isEqualTo(2);
        });
    }

    /** When the show is over, all may be muted. */
    @Test
    void whereNoOtherTrackSoundsItIsANote() {
        InventedRecording recording = loud(4, 3, 3);
        for (int track = 1; track <= 3; track++) {
            silence(recording, track, 4096 * 30 - HEAD, Integer.MAX_VALUE);
        }

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.weight()).isEqualTo(Finding.Weight.NOTE);
            assertThat(one.trackCount()).isEqualTo(3);
        });
    }

    /** Audio that fades, or begins from nothing, was not torn off. */
    @ParameterizedTest
    @CsvSource({"true, 24576", "false, 24576"})
    void whatFadesIsNothing(boolean end, int edge) {
        InventedRecording recording = new InventedRecording(5, RATE, 3, false, 2 * RATE);
        float[] values = new float[recording.samples];
        for (int i = 0; i < values.length; i++) {
            int away = end ? edge / 3 * 4 - i : i - edge / 3;
            values[i] = (float) (0.1 * Math.max(0, Math.min(1, away / 2000.0)) * Math.sin(0.05 * i));
        }
        recording.put(InventedRecording.name(2), recording.stored(values));
        float[] other = recording.music(0);
        recording.put(InventedRecording.name(1), recording.stored(other));
        recording.put(InventedRecording.name(3), recording.stored(new float[other.length]));

        assertThat(recording.inspected().findings())
                .allSatisfy(one -> assertThat(one.kind()).isEqualTo(FindingKind.SILENT));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4})
    void aRecordingOfNothingButZerosLeavesNoVerdict(int tracks) {
        InventedRecording apart = new InventedRecording(6, RATE, 3, false, RATE);
        InventedRecording together = new InventedRecording(6, RATE, 3, false, RATE);
        byte[] nothing = new byte[3 * RATE];
        for (int track = 1; track <= tracks; track++) {
            apart.put(InventedRecording.name(track), nothing);
        }
        together.put("take/all.wav", new WaveFormat(tracks, RATE, false, 3, 24), new byte[tracks * 3 * RATE]);

        for (InventedRecording recording : List.of(apart, together)) {
            assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
                assertThat(one.kind()).isEqualTo(FindingKind.SILENT);
                assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
                assertThat(one.sentence()).contains("nothing was recorded, or nothing was written");
            });
        }
    }

    @Test
    void aChannelThatWasMutedAllTheTimeIsANote() {
        InventedRecording recording = loud(7, 3, 3);
        silence(recording, 2, 0, Integer.MAX_VALUE);

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.SILENT);
            assertThat(one.weight()).isEqualTo(Finding.Weight.NOTE);
        });
    }

    private static void erase(InventedRecording recording, int track, int from, int until) {
        byte[] data = recording.data(InventedRecording.name(track));
        Arrays.fill(data, from, Math.min(until, data.length), (byte) -1);
        recording.put(InventedRecording.name(track), data);
    }

    /** Flash memory that was erased and never written; no mute makes that, so other tracks need not go on. */
    @ParameterizedTest
    @MethodSource("few")
    void anEndOrABeginningOfErasedMemoryIsListenedTo(int seed) {
        int bytes = 2 + seed % 3;
        int edge = 4096 * (31 + seed) - (seed % 2 == 0 ? HEAD : 0);
        int tracks = seed < 4 ? 3 : 1;
        InventedRecording end = loud(seed, bytes, tracks);
        InventedRecording beginning = loud(seed, bytes, tracks);
        for (int track = 1; track <= tracks; track++) {
            erase(end, track, edge, Integer.MAX_VALUE);
            erase(beginning, track, 0, edge);
        }

        for (InventedRecording recording : List.of(end, beginning)) {
            assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
                assertThat(one.kind()).isEqualTo(FindingKind.ERASED);
                assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
                assertThat(one.trackCount()).isEqualTo(tracks);
                assertThat(one.sentence())
                        .contains("erased memory", recording == end ? "to the end" : "the beginning of its file");
            });
        }
    }

    /** A converter that rests one step below zero. */
    @Test
    void anEndOneStepBelowZeroFromAnywhereElseIsANote() {
        InventedRecording recording = loud(3, 3, 3);
        erase(recording, 2, 61_740, Integer.MAX_VALUE);

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.ERASED);
            assertThat(one.weight()).isEqualTo(Finding.Weight.NOTE);
        });
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2})
    void aRecordingOfNothingButErasedMemoryLeavesNoVerdict(int channels) {
        InventedRecording recording = new InventedRecording(6, RATE, 3, false, RATE);
        byte[] erased = new byte[3 * channels * RATE];
        Arrays.fill(erased, (byte) -1);
        recording.put("take/all.wav", new WaveFormat(channels, RATE, false, 3, 24), erased);

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.SILENT);
            assertThat(one.weight()).isEqualTo(Finding.Weight.LISTEN);
        });
    }

    /** Space given in advance, and power lost before the header was finished. */
    @ParameterizedTest
    @ValueSource(bytes = {0, -1})
    void whereTheHeaderWasNeverFinishedAudioEndsBeforeSpaceThatWasNeverWritten(byte with) {
        InventedRecording recording = loud(9, 3, 3);
        for (int track = 1; track <= 3; track++) {
            byte[] file = recording.file(InventedRecording.name(track));
            Arrays.fill(file, 4096 * (40 + track), file.length, with);
            Arrays.fill(file, HEAD - 4, HEAD, (byte) 0);
        }

        List<Finding> faults = recording.inspected().findings().stream()
                .filter(one -> one.weight() == Finding.Weight.FAULT)
                .toList();

        assertThat(faults).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.HEADER_UNFINISHED);
            assertThat(one.trackCount()).isEqualTo(3);
            assertThat(one.atSample()).isBetween((4096 * 43 - HEAD) / 3L - 1, (4096 * 43 - HEAD) / 3L + 1);
        });
    }

    /** Space given in advance and not given back: of flash that was erased, not of zeros. */
    @ParameterizedTest
    @ValueSource(bytes = {0, -1})
    void whatLiesBehindTheEndAndWasNeverWrittenIsNoAudio(byte with) {
        InventedRecording recording = loud(9, 3, 2);
        for (int track = 1; track <= 2; track++) {
            byte[] file = recording.file(InventedRecording.name(track));
            byte[] longer = Arrays.copyOf(file, file.length + 50_000);
            Arrays.fill(longer, file.length, longer.length, with);
            recording.files.put(InventedRecording.name(track), longer);
        }

        assertThat(recording.inspected().findings()).singleElement().satisfies(one -> {
            assertThat(one.kind()).isEqualTo(FindingKind.SPACE_LEFT);
            assertThat(one.weight()).isEqualTo(Finding.Weight.NOTE);
        });
    }
}

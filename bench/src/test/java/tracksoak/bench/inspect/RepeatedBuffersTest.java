package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Buffers of a driver that come again, whatever their length in bytes is a multiple of: 16 seeds of each kind in each build, 400 at night. */
class RepeatedBuffersTest {

    private static final int RATE = 44_100;

    /** Tracks in the file, and bytes of a sample. */
    private static final int[][] SHAPES = {
        {1, 3}, {1, 2}, {2, 2}, {3, 3}, {1, 3}, {5, 3}, {2, 3}, {1, 4}, {7, 3}, {31, 3}
    };

    private static final class Damaged {

        final WaveFormat format;
        final InventedRecording recording;
        final byte[] data;
        final int buffer;
        final Random random;

        /** @param most samples of a buffer */
        Damaged(int seed, int most) {
            random = Seeded.random(seed);
            int[] shape = SHAPES[seed % SHAPES.length];
            format = new WaveFormat(shape[0], RATE, false, shape[1], 8 * shape[1]);
            recording = new InventedRecording(seed, RATE, shape[1], false, shape[0] * RATE);
            data = recording.stored(recording.music(0));
            int least = Math.max(64, (1024 + format.frameBytes() - 1) / format.frameBytes());
            buffer = seed % 3 == 0 ? Math.max(least, 441) : least + random.nextInt(most - least);
        }

        int bytes(int samples) {
            return samples * format.frameBytes();
        }

        void isFoundAt(int sample, int samples) {
            recording.put("take/TR01.wav", format, data);
            List<Finding> found = recording.inspected().findings();
            assertThat(found)
                    .as("%s, %d samples at %d", format, samples, sample)
                    .anySatisfy(one -> {
                        assertThat(one.kind()).isEqualTo(FindingKind.REPEATED_BLOCK);
                        assertThat(one.atSample()).isCloseTo(sample, within(2L));
                        assertThat(one.samples()).isCloseTo(samples, within(4.0));
                    });
            assertThat(found).allSatisfy(one -> assertThat(one.kind()).isEqualTo(FindingKind.REPEATED_BLOCK));
        }
    }

    static IntStream few() {
        return IntStream.range(0, 16);
    }

    static IntStream many() {
        return IntStream.range(1_000, 1_400);
    }

    /** As where a driver hands out the last buffer once more: 441 samples of 24 bits are 1,323 bytes. */
    @ParameterizedTest
    @MethodSource("few")
    void theLastBufferInPlaceOfTheNextIsFound(int seed) {
        Damaged damaged = new Damaged(seed, 4000);
        int at = damaged.buffer + 100 + damaged.random.nextInt(RATE - 2 * damaged.buffer - 200);
        System.arraycopy(
                damaged.data,
                damaged.bytes(at - damaged.buffer),
                damaged.data,
                damaged.bytes(at),
                damaged.bytes(damaged.buffer));

        damaged.isFoundAt(at, damaged.buffer);
    }

    /** As where a ring of buffers is read one lap behind. */
    @ParameterizedTest
    @MethodSource("few")
    void buffersOfTheLastLapOfARingAreFound(int seed) {
        Damaged damaged = new Damaged(seed, 1500);
        int buffers = 1 + damaged.random.nextInt(2);
        int ring = damaged.buffer * (buffers + 1 + damaged.random.nextInt(13));
        int length = buffers * damaged.buffer;
        int at = ring + 100 + damaged.random.nextInt(RATE - ring - length - 200);
        System.arraycopy(
                damaged.data, damaged.bytes(at - ring), damaged.data, damaged.bytes(at), damaged.bytes(length));

        damaged.isFoundAt(at, length);
    }

    @Tag("nightly")
    @ParameterizedTest
    @MethodSource("many")
    void bothWithManySeeds(int seed) {
        theLastBufferInPlaceOfTheNextIsFound(seed);
        buffersOfTheLastLapOfARingAreFound(seed);
    }

    /** Wherever a block of reading ends. */
    @ParameterizedTest
    @ValueSource(ints = {1, 3, 5, 7})
    void aBufferThatLiesAcrossTwoBlocksOfReadingIsFound(int channels) {
        int block = Math.max(8, (128 << 10) / (3 * channels) & ~7);
        for (int into = 0; into <= 441; into += 21) {
            InventedRecording recording = new InventedRecording(into, RATE, 3, false, channels * (block + 20_000));
            byte[] data = recording.stored(recording.music(0));
            int frame = 3 * channels;
            int at = block - into;
            System.arraycopy(data, frame * (at - 441), data, frame * at, frame * 441);
            recording.put("take/TR01.wav", new WaveFormat(channels, RATE, false, 3, 24), data);

            assertThat(recording.inspected().findings()).as("%d", into).anySatisfy(one -> {
                assertThat(one.kind()).isEqualTo(FindingKind.REPEATED_BLOCK);
                assertThat(one.atSample()).isCloseTo(at, within(2L));
            });
        }
    }

    /** Steps of a beat lie as buffers do, and the notes of a machine are the same each time; but they begin and end in silence. */
    @ParameterizedTest
    @MethodSource("few")
    void notesOfADrumMachineAreNothing(int seed) {
        InventedRecording recording = new InventedRecording(seed, RATE, 3, false, 8 * RATE);
        float[] played = new float[recording.samples];
        int step = 2_500 + recording.random.nextInt(1_900);
        int note = seed % 2 == 0 ? step - 40 : step / 2;
        float[][] notes = new float[3][note];
        for (float[] one : notes) {
            for (int i = 0; i < note; i++) {
                one[i] = (float) (0.2 * recording.random.nextGaussian() * Math.exp(-4.0 * i / note));
            }
        }
        for (int i = 0; (i + 1) * step < played.length; i++) {
            System.arraycopy(notes[recording.random.nextInt(3)], 0, played, i * step, note);
        }
        recording.put("take/TR01.wav", recording.stored(played));

        assertThat(recording.inspected().findings())
                .allSatisfy(one -> assertThat(one.weight()).isEqualTo(Finding.Weight.NOTE));
    }
}

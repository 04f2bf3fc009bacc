package tracksoak.bench.timecode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.rig.CSource;
import tracksoak.bench.rig.NeedsCommand;

/** Our timecode read by libltc, and libltc's read by ours. */
@NeedsCommand({"gcc", "/usr/include/ltc.h"})
class LtcByOthersTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(ints = {44_100, 48_000, 96_000, 192_000})
    void libltcReadsEveryFrameOfTheTestSignalWithItsUserBitsWhereItIs(int rate) throws IOException {
        int seconds = 8;
        float[] samples = new float[seconds * rate];
        new TestSignal(rate).fill(0, samples, samples.length);
        ByteBuffer bytes = ByteBuffer.allocate(4 * samples.length).order(ByteOrder.LITTLE_ENDIAN);
        bytes.asFloatBuffer().put(samples);
        Path file = Files.write(folder.resolve("signal.raw"), bytes.array());

        List<String> lines = CSource.run("ltc_peer", "ltc", "decode", Integer.toString(rate), file.toString())
                .lines()
                .toList();

        // libltc needs a frame to settle, and gives one out when the next begins
        assertThat(lines).hasSizeBetween(seconds * 25 - 3, seconds * 25);
        for (String line : lines) {
            String[] words = line.split(" ", -1);
            String[] digits = words[0].split(":", -1);
            int frame = 25 * Integer.parseInt(digits[2]) + Integer.parseInt(digits[3]);
            String code = String.format(Locale.ROOT, "00:00:%02d:%02d", frame / 25, frame % 25);
            assertThat(words[0]).isEqualTo(code);
            assertThat(Integer.parseUnsignedInt(words[1], 16)).isEqualTo(TestSignal.userBits(frame));
            // its own manual calls the place approximate: to a bit of 24 samples at 48 kHz
            assertThat(Double.parseDouble(words[2])).isCloseTo(frame * rate / 25.0, within(rate / 2000.0));
        }
    }

    @ParameterizedTest
    @CsvSource({"48000,25", "44100,25", "96000,24", "48000,30", "192000,25"})
    void whatLibltcWritesIsReadByOursFrameByFrameToTheSample(int rate, int framesPerSecond) throws IOException {
        int count = 3 * framesPerSecond;
        Path file = folder.resolve("by-libltc.raw");
        CSource.run(
                "ltc_peer",
                "ltc",
                "encode",
                Integer.toString(rate),
                Integer.toString(framesPerSecond),
                Integer.toString(count),
                file.toString());
        byte[] bytes = Files.readAllBytes(file);
        float[] samples = new float[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            samples[i] = ((bytes[i] & 0xFF) - 128) / 128f;
        }
        List<Long> words = new ArrayList<>();
        List<Double> begins = new ArrayList<>();
        LtcDecoder[] decoder = new LtcDecoder[1];
        decoder[0] = new LtcDecoder(rate, word -> {
            words.add(word);
            begins.add(decoder[0].boundary(0));
        });
        decoder[0].feed(samples, 0, samples.length);

        assertThat(words).hasSizeBetween(count - 2, count);
        long first = ((1 * 60 + 2) * 60 + 3L) * framesPerSecond + 4;
        double begin = begins.get(0);
        long number = LtcWord.frameNumber(words.get(0), framesPerSecond);
        assertThat(number).isBetween(first, first + 1);
        for (int i = 0; i < words.size(); i++, number++) {
            int twice = (int) ((number - first) * 0x10001);
            assertThat(words.get(i)).isEqualTo(LtcWord.of(number, framesPerSecond, twice));
            assertThat(LtcWord.userBits(words.get(i))).isEqualTo(twice);
            assertThat(begins.get(i)).isCloseTo(begin + (double) i * rate / framesPerSecond, within(0.5));
        }
    }

    @Test
    void timecodeOfOthersIsNotTakenForTheTestSignal() throws IOException {
        Path file = folder.resolve("by-libltc.raw");
        CSource.run("ltc_peer", "ltc", "encode", "48000", "25", "100", file.toString());
        byte[] bytes = Files.readAllBytes(file);
        float[] samples = new float[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            samples[i] = ((bytes[i] & 0xFF) - 128) / 128f;
        }
        SignalTracker tracker = new SignalTracker(48_000, 1.0 / 128);
        tracker.feed(samples, samples.length);
        SignalTrace trace = tracker.end();

        assertThat(trace.found()).isFalse();
        assertThat(trace.otherFrames()).isGreaterThan(95);
    }
}

package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.OptionalLong;
import tracksoak.bench.recording.SampleFile;
import tracksoak.bench.recording.Samples;
import tracksoak.bench.recording.WaveFormat;

/**
 * Finds where in a file samples begin to be read across their borders: chunks are seldom whole samples, so what follows a lost one is
 * noise. Audio changes little from sample to sample, and audio that is read wrongly changes a lot. One thread.
 */
final class ShiftedSamples {

    private static final int SPECIMEN = 2048;
    private static final double ROUGHER = 3;
    private static final int LEAST_SILENCE = 64;

    private final SampleFile file;
    private final WaveFormat format;

    private ShiftedSamples(SampleFile file) {
        this.file = file;
        format = file.format();
    }

    /** The first sample that is read wrongly, near; empty where the end is read rightly, or nothing can be told. */
    static OptionalLong firstWrong(SampleFile file) throws IOException {
        ShiftedSamples shifted = new ShiftedSamples(file);
        long last = file.samples() - SPECIMEN;
        if (last < SPECIMEN || shifted.shift(last) == 0 || shifted.shift(0) != 0) {
            return OptionalLong.empty();
        }
        long right = 0;
        long wrong = last;
        while (wrong - right > SPECIMEN / 8) {
            long middle = (right + wrong) / 2;
            if (shifted.shift(middle) == 0) {
                right = middle;
            } else {
                wrong = middle;
            }
        }
        // most of a specimen is wrong where its middle is
        return OptionalLong.of(Math.min(file.samples(), wrong + SPECIMEN / 2));
    }

    /** By how many bytes samples must be shifted to be smooth there; 0 where they are. */
    private int shift(long at) throws IOException {
        int frame = format.frameBytes();
        int bytes = format.bytesPerSample();
        ByteBuffer stored = file.stored(at * frame, (SPECIMEN + 1) * frame);
        int frames = stored.remaining() / frame - 1;
        if (frames < LEAST_SILENCE) {
            return 0;
        }
        double usual = roughness(stored, 0, frames);
        int best = 0;
        for (int shift = 1; shift < bytes; shift++) {
            if (roughness(stored, shift, frames) * ROUGHER < usual) {
                best = shift;
                usual = roughness(stored, shift, frames) * ROUGHER;
            }
        }
        return best;
    }

    private double roughness(ByteBuffer stored, int shift, int frames) {
        float[] values = new float[frames];
        Samples.of(
                stored.slice(shift, frames * format.frameBytes()).order(ByteOrder.LITTLE_ENDIAN),
                frames,
                format,
                0,
                values);
        double sum = 0;
        for (int i = 1; i < frames; i++) {
            sum += Math.abs(values[i] - values[i - 1]);
        }
        return sum / frames;
    }
}

package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import tracksoak.bench.recording.Samples;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHead;
import tracksoak.bench.timecode.TestSignal;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.base.AtomicFile;

/** The test signal as a WAVE file. */
public final class SignalFile {

    /** Frames of timecode per second. */
    public static final int FRAMES_PER_SECOND = TestSignal.FRAMES_PER_SECOND;

    /** Level of its peaks. */
    public static final int PEAK_DBFS = -18;

    /** What everyone must know before it is played. */
    public static final String CAUTION =
            "this is a loud, harsh sound. Play it into inputs only, with all outputs muted: no"
                    + " loudspeakers, no headphones. Its peaks are at -18 dBFS: turn nothing up.";

    private static final int BLOCK = 1 << 14;

    private final WaveFormat format;
    private final long samples;

    /** A signal of so many seconds. */
    public SignalFile(int sampleRateHz, SampleFormat stored, double seconds) {
        int bytes = stored.bytesPerSample();
        format = new WaveFormat(1, sampleRateHz, stored == SampleFormat.FLOAT_32, bytes, 8 * bytes);
        samples = Math.round(seconds * sampleRateHz);
    }

    /** Size of the file. */
    public long fileBytes() {
        long data = samples * format.bytesPerSample();
        return WaveHead.of(format, data).length + data + (data & 1);
    }

    /**
     * Writes it, whole or not at all.
     *
     * @return false if there is such a file already, which is left as it is
     * @throws IOException if it cannot be written; nothing is then left of it
     */
    public boolean write(Path file) throws IOException {
        return AtomicFile.create(file, out -> {
            long data = samples * format.bytesPerSample();
            out.write(WaveHead.of(format, data));
            TestSignal signal = new TestSignal(format.sampleRateHz());
            float[] values = new float[BLOCK];
            ByteBuffer stored =
                    ByteBuffer.allocate(BLOCK * format.bytesPerSample()).order(ByteOrder.LITTLE_ENDIAN);
            for (long at = 0; at < samples; at += BLOCK) {
                int count = (int) Math.min(BLOCK, samples - at);
                signal.fill(at, values, count);
                Samples.store(values, count, format, stored.clear());
                out.write(stored.array(), 0, stored.position());
            }
            if ((data & 1) == 1) {
                out.write(0);
            }
        });
    }
}

package tracksoak.bench.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * The samples of one file, to be looked at anywhere. One thread.
 *
 * @param bytes open
 * @param dataAt offset of the first sample
 * @param samples whole samples of each track
 */
public record SampleFile(FileBytes bytes, long dataAt, long samples, WaveFormat format) implements AutoCloseable {

    /** Opens one whose header was read. */
    public static SampleFile open(RecordedFile file) throws IOException {
        return new SampleFile(
                file.source().open(),
                file.header().dataAt(),
                file.samples(),
                file.header().format());
    }

    /** Stored bytes from a place behind the first sample on; fewer where the samples end. */
    public ByteBuffer stored(long at, int count) throws IOException {
        long most = samples * format.frameBytes();
        int wanted = (int) Math.max(0, Math.min(count, most - at));
        ByteBuffer buffer = ByteBuffer.allocate(wanted).order(ByteOrder.LITTLE_ENDIAN);
        while (buffer.hasRemaining() && bytes.read(buffer, dataAt + at + buffer.position()) > 0) {
            // goes on until all is there
        }
        return buffer.flip();
    }

    /** Samples of one track; fewer where they end. */
    public float[] values(int channel, long from, int count) throws IOException {
        long first = Math.max(0, from);
        int wanted = (int) Math.max(0, Math.min(count - (first - from), samples - first));
        ByteBuffer stored = stored(first * format.frameBytes(), wanted * format.frameBytes());
        float[] values = new float[stored.remaining() / format.frameBytes()];
        Samples.of(stored, values.length, format, channel, values);
        return values;
    }

    @Override
    public void close() throws IOException {
        bytes.close();
    }
}

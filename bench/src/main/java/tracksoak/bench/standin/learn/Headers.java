package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Optional;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.bench.volume.ByteSource;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.VolumeFile;

/** What the headers of the files on an image say. Stateless. */
final class Headers {

    private static final int HEAD = 64 << 10;

    private Headers() {}

    /** The format of a file's samples; empty where it has no header that says so. */
    static Optional<WaveFormat> of(ByteSource image, VolumeFile file) throws IOException {
        if (file.extents().isEmpty() || file.sizeBytes() < 12) {
            return Optional.empty();
        }
        Extent first = file.extents().get(0);
        int bytes = (int) Math.min(HEAD, Math.min(first.lengthBytes(), file.sizeBytes()));
        ByteBuffer head = ByteBuffer.wrap(image.read(first.startByte(), bytes));
        try {
            return Optional.of(WaveHeaderReader.read(new Head(head)).format());
        } catch (UnreadableWave none) {
            return Optional.empty();
        }
    }

    /** The first bytes of a file, as if they were all of it. */
    private record Head(ByteBuffer bytes) implements FileBytes {

        @Override
        public long sizeBytes() {
            return bytes.limit();
        }

        @Override
        public int read(ByteBuffer target, long offset) {
            if (offset >= bytes.limit()) {
                return -1;
            }
            int count = (int) Math.min(target.remaining(), bytes.limit() - offset);
            target.put(bytes.slice((int) offset, count));
            return count;
        }

        @Override
        public void close() {}
    }
}

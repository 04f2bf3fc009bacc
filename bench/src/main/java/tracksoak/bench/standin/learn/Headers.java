package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
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
        Path head = Files.createTempFile("tracksoak-head-", ".wav");
        try (FileChannel copy = FileChannel.open(head, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            copy.write(ByteBuffer.wrap(image.read(first.startByte(), bytes)));
            return Optional.of(WaveHeaderReader.read(copy).format());
        } catch (UnreadableWave none) {
            return Optional.empty();
        } finally {
            Files.delete(head);
        }
    }
}

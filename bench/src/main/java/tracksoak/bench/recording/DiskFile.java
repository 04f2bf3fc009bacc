package tracksoak.bench.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** A file of a mounted file system, opened for reading only. */
public final class DiskFile implements FileBytes {

    private final FileChannel channel;

    private DiskFile(FileChannel channel) {
        this.channel = channel;
    }

    /** Opens it. */
    public static DiskFile open(Path file) throws IOException {
        return new DiskFile(FileChannel.open(file, StandardOpenOption.READ));
    }

    @Override
    public long sizeBytes() throws IOException {
        return channel.size();
    }

    @Override
    public int read(ByteBuffer target, long offset) throws IOException {
        return channel.read(target, offset);
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}

package tracksoak.bench.volume;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** An image in a file, or a device, opened for reading only. Thread-safe. */
public final class ImageFile implements ByteSource, AutoCloseable {

    private final FileChannel channel;

    private ImageFile(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Opens it for reading.
     *
     * @throws IOException if there is none or it may not be read
     */
    public static ImageFile open(Path file) throws IOException {
        return new ImageFile(FileChannel.open(file, StandardOpenOption.READ));
    }

    @Override
    public long sizeBytes() throws IOException {
        return channel.size();
    }

    @Override
    public byte[] read(long offset, int bytes) throws IOException {
        if (offset < 0) {
            throw new EOFException("there is nothing before the first byte");
        }
        ByteBuffer target = ByteBuffer.allocate(bytes);
        while (target.hasRemaining()) {
            if (channel.read(target, offset + target.position()) < 0) {
                throw new EOFException("it ends before byte " + (offset + bytes));
            }
        }
        return target.array();
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}

package tracksoak.bench.volume;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** An image in a file, or a device, opened for reading only. Thread-safe. */
public final class ImageFile implements ByteSource, AutoCloseable {

    /** Which bits of a file's mode say what it is, and what they say: POSIX.1-2017, sys/stat.h, with the values of all Unix systems. */
    private static final int KIND = 0xF000;

    private static final int PIPE = 0x1000;
    private static final int CHARACTERS = 0x2000;
    private static final int SOCKET = 0xC000;

    private final FileChannel channel;

    private ImageFile(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Opens it for reading.
     *
     * @throws Problem if it is a pipe, a socket or a device of another kind: opening those may wait for ever
     * @throws IOException if there is none or it may not be read
     */
    public static ImageFile open(Path file) throws IOException {
        String other = otherKind(file);
        if (!other.isEmpty()) {
            throw new Problem(
                    Problem.Kind.ASKED_WRONG,
                    "This cannot be looked into",
                    Inert.quoted(file),
                    "it is " + other + ", neither a file nor a drive",
                    "name a file, an image of a drive, or the drive itself");
        }
        return new ImageFile(FileChannel.open(file, StandardOpenOption.READ));
    }

    /** What it is, where it can hold no file system; else empty. */
    private static String otherKind(Path file) throws IOException {
        if (!Files.readAttributes(file, BasicFileAttributes.class).isOther()
                || !file.getFileSystem().supportedFileAttributeViews().contains("unix")) {
            return "";
        }
        return switch ((Integer) Files.getAttribute(file, "unix:mode") & KIND) {
            case PIPE -> "a pipe (FIFO)";
            case SOCKET -> "a socket";
            case CHARACTERS -> "a device that gives characters";
            default -> "";
        };
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

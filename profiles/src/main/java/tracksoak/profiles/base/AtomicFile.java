package tracksoak.profiles.base;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;

/**
 * Puts a file in place whole or not at all. The bytes are written beside it and forced to the disk before they take its
 * name, so a reader, a crash or a full disk leaves the old file or the new one and nothing between. Unless
 * said otherwise files are readable by their owner only where the system has such a thing. Any thread, any number of processes: the last one wins.
 */
public final class AtomicFile {

    private static final String HALF = ".half";
    private static final String OWNER_ONLY = "rw-------";

    /** What the user does not give to others, the system takes off. */
    private static final String AS_USUAL = "rw-rw-rw-";

    private AtomicFile() {}

    /**
     * Writes a file, over one that is there. Its folder is made if need be.
     *
     * @throws IOException if it cannot be; what was there before is then still there, and nothing half-written
     */
    public static void write(Path file, byte[] content) throws IOException {
        write(file, content, OWNER_ONLY);
    }

    /** The same, as readable by others as every file that its owner makes. */
    public static void writeForOthers(Path file, byte[] content) throws IOException {
        write(file, content, AS_USUAL);
    }

    private static void write(Path file, byte[] content, String permissions) throws IOException {
        Path half = half(file, permissions);
        try {
            fill(half, content);
            move(half, file);
        } finally {
            Files.deleteIfExists(half);
        }
    }

    /**
     * Writes a file unless one is there already.
     *
     * @return false if there is one, which is left as it is
     * @throws IOException if it cannot be written
     */
    public static boolean create(Path file, byte[] content) throws IOException {
        return create(file, out -> out.write(content));
    }

    /** What is to be in a file, where it is too much to be held at once. */
    @FunctionalInterface
    public interface Content {

        /** Writes all of it. */
        void to(OutputStream out) throws IOException;
    }

    /**
     * Writes a file unless one is there already, as its content comes.
     *
     * @return false if there is one, which is left as it is
     * @throws IOException if it cannot be written; nothing is then left of it
     */
    public static boolean create(Path file, Content content) throws IOException {
        Path half = half(file, OWNER_ONLY);
        try {
            try (FileChannel channel = FileChannel.open(half, StandardOpenOption.WRITE);
                    OutputStream out = Channels.newOutputStream(channel)) {
                content.to(out);
                out.flush();
                channel.force(true);
            }
            nameOnce(half, file);
            return true;
        } catch (FileAlreadyExistsException e) {
            return false;
        } finally {
            Files.deleteIfExists(half);
        }
    }

    private static Path half(Path file, String permissions) throws IOException {
        Path target = file.toAbsolutePath();
        Path name = target.getFileName();
        Path folder = target.getParent();
        if (name == null || folder == null) {
            throw new IOException("not a file: " + file);
        }
        Files.createDirectories(folder);
        return Files.createTempFile(
                folder, ".", HALF, OwnersOnly.rights(file, PosixFilePermissions.fromString(permissions)));
    }

    private static void fill(Path half, byte[] content) throws IOException {
        try (FileChannel channel = FileChannel.open(half, StandardOpenOption.WRITE)) {
            ByteBuffer buffer = ByteBuffer.wrap(content);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.force(true);
        }
    }

    private static void move(Path half, Path file) throws IOException {
        try {
            Files.move(half, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(half, file, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private static void nameOnce(Path half, Path file) throws IOException {
        try {
            Files.createLink(file, half);
        } catch (FileAlreadyExistsException e) {
            throw e;
        } catch (UnsupportedOperationException | FileSystemException e) {
            // exFAT and FAT32 know no second name for one file
            Files.move(half, file);
        }
    }
}

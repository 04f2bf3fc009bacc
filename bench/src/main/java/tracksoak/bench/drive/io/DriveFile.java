package tracksoak.bench.drive.io;

import java.io.IOException;
import java.nio.ByteBuffer;

/** One open file of a {@link Drive}. Used by one thread at a time. */
public interface DriveFile extends AutoCloseable {

    /**
     * Writes the whole of {@code source}, from its position to its limit, at {@code position}; returns once the device
     * has it. Position and length are multiples of {@link Drive#alignmentBytes()}. Allocates nothing.
     *
     * @throws IOException if the drive refuses; how much was written is then unknown
     */
    void write(ByteBuffer source, long position) throws IOException;

    /**
     * Reads into {@code target} until it is full or the file ends.
     *
     * @return bytes read, 0 at or past the end
     */
    int read(ByteBuffer target, long position) throws IOException;

    /**
     * Asks the device to make all that was written to this file durable.
     *
     * @param withMetadata also times and other metadata not needed to read the data
     */
    void flush(boolean withMetadata) throws IOException;

    /**
     * Gives the file room ahead of what is written, without writing it: it then holds room for {@code bytes} in all, its size
     * stays.
     *
     * @return false if the file system has no such thing, or no room
     * @throws IOException if the drive refuses
     */
    default boolean extend(long bytes) throws IOException {
        return false;
    }

    /**
     * Makes the file so many bytes long without writing them; they read as zeros.
     *
     * @return false if the drive has no such thing, or no room
     * @throws IOException if the drive refuses
     */
    default boolean lengthen(long bytes) throws IOException {
        return false;
    }

    /** Gives back the room from {@code from} on, so many bytes, of a file that was extended; both whole clusters. */
    default void giveBack(long from, long bytes) throws IOException {
        throw new IOException("this file gives no room back");
    }

    /** Gives back the room beyond {@code bytes}, all of which are written. */
    default void trim(long bytes) throws IOException {}

    /** Size in bytes. */
    long size() throws IOException;

    @Override
    void close() throws IOException;
}

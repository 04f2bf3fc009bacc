package tracksoak.bench.standin;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.volume.ByteSource;

/** Where the bytes of a stand-in are kept. Confined to one thread, but for reading. */
interface Store extends ByteSource, AutoCloseable {

    @Override
    long sizeBytes();

    @Override
    default byte[] read(long offset, int bytes) throws IOException {
        ByteBuffer target = ByteBuffer.allocate(bytes);
        read(target, offset);
        return target.array();
    }

    /** Refuses bytes that do not all lie inside. */
    default void inside(long offset, long bytes) throws IOException {
        if (offset < 0 || bytes < 0 || offset > sizeBytes() - bytes) {
            throw new EOFException("bytes outside the drive");
        }
    }

    /** Fills the buffer. */
    void read(ByteBuffer target, long offset) throws IOException;

    /** Writes what is in the buffer. */
    void write(ByteBuffer source, long offset) throws IOException;

    /** Writes zeros. */
    void zero(long offset, long bytes) throws IOException;

    /** Waits until everything written is safe. */
    void flush() throws IOException;

    /** Whether a failure came of there being no more room. */
    boolean full(IOException failed);

    @Override
    void close() throws IOException;
}

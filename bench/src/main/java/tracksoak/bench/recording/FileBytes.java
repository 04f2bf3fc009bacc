package tracksoak.bench.recording;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;

/** The bytes of one file, wherever it lies: on a mounted drive or in an image. Only reads. */
public interface FileBytes extends Closeable {

    /** Its length in bytes. */
    long sizeBytes() throws IOException;

    /**
     * Reads from an offset on, at least one byte unless the file ends there or {@code target} is full.
     *
     * @return how many bytes; −1 at the end of the file
     * @throws IOException if those bytes cannot be read
     */
    int read(ByteBuffer target, long offset) throws IOException;
}

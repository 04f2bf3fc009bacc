package tracksoak.bench.volume;

import java.io.IOException;

/** Bytes of a device or an image that can be read at any place. Thread-safe. */
public interface ByteSource {

    /** How many bytes there are. */
    long sizeBytes() throws IOException;

    /**
     * Reads the {@code bytes} bytes from {@code offset} on.
     *
     * @throws java.io.EOFException if they do not all lie inside
     * @throws IOException if the device refuses
     */
    byte[] read(long offset, int bytes) throws IOException;
}

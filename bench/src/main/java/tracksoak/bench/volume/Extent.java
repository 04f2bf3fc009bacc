package tracksoak.bench.volume;

/**
 * A run of bytes that lie side by side.
 *
 * @param startByte its first byte on the device
 * @param lengthBytes its length in bytes
 */
public record Extent(long startByte, long lengthBytes) {

    /** The byte after its last. */
    public long endByte() {
        return startByte + lengthBytes;
    }
}

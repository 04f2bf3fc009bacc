package tracksoak.bench.stream;

/**
 * A file of a run and what it should hold.
 *
 * @param name in the run's folder
 * @param stream of every stamp in it
 * @param pass of every stamp in it
 * @param firstBlock number of its first block
 * @param blocks how many blocks it holds
 * @param headerBytes where its data begins
 */
public record WrittenFile(String name, int stream, int pass, long firstBlock, long blocks, int headerBytes) {

    /** Data in bytes. */
    public long dataBytes() {
        return blocks * Stamp.BLOCK;
    }
}

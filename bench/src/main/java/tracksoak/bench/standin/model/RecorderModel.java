package tracksoak.bench.standin.model;

/**
 * A recorder as data.
 *
 * @param tracks how many it records
 * @param sampleRateHz samples per second of each
 * @param bytesPerSample of one track
 * @param interleaved whether all tracks go into one file
 * @param chunkBytes written at once per file, a multiple of 512
 * @param staggered whether chunks fall due spread evenly; else all at once
 * @param writers writes in flight at once
 * @param bufferChunks chunks it can hold: per file, or in all where {@code shared}
 * @param shared whether all files share one buffer
 * @param onOverrun what it does when a chunk finds no place
 * @param flushS time between two flushes in s, 0 for none before the end
 * @param headerS time between two writes of each header in s, 0 for none before the end
 * @param advanceBytes space given to a file at once, 0 for no more than is needed
 * @param fileLimitBytes largest file before the next is begun
 * @param fileSystem {@code fat32} or {@code exfat}
 * @param clusterBytes of the file system
 */
public record RecorderModel(
        int tracks,
        int sampleRateHz,
        int bytesPerSample,
        boolean interleaved,
        int chunkBytes,
        boolean staggered,
        int writers,
        int bufferChunks,
        boolean shared,
        Overrun onOverrun,
        double flushS,
        double headerS,
        long advanceBytes,
        long fileLimitBytes,
        String fileSystem,
        int clusterBytes) {

    /** What it does when a chunk finds no place: that chunk is lost, with {@link #CUTS} only a part of it. */
    public enum Overrun {
        ENDS_THE_TAKE,
        /** The next chunk takes its place in the file. */
        DROPS,
        /** The next chunk begins when there is a place: less than a chunk may be missing. */
        CUTS,
        /** Silence takes its place in the file. */
        PADS
    }

    /** Files written at the same time. */
    public int streams() {
        return interleaved ? 1 : tracks;
    }

    /** Bytes per second of one file. */
    public long streamBytesPerSecond() {
        return (long) sampleRateHz * bytesPerSample * (interleaved ? tracks : 1);
    }

    /** How long a chunk takes to fill, in s. */
    public double chunkS() {
        return (double) chunkBytes / streamBytesPerSecond();
    }

    /** What it can hold of every track, in s of audio. */
    public double bufferS() {
        return (shared ? (double) bufferChunks / streams() : bufferChunks) * chunkS();
    }
}

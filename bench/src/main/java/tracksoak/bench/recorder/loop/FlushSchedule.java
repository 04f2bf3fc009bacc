package tracksoak.bench.recorder.loop;

import java.util.Arrays;

/**
 * When each file is flushed, and its header written anew: after the first chunk that gets done once {@code flush_s} have passed since its last flush (or {@code header_s} since its last header).
 * Flushes are so spread over the interval as the writes are, and a busy drive cannot put them off. Each stream's entry is
 * used by one thread at a time.
 */
public final class FlushSchedule {

    private final long intervalNs;
    private final long headerNs;
    private final long[] lastNs;
    private final long[] headerAtNs;

    /**
     * A schedule for a take.
     *
     * @param intervalS in s, 0 for no flush before the end
     * @param startNs when the take begins, on the clock
     */
    public FlushSchedule(double intervalS, int streams, long startNs) {
        this(intervalS, 0, streams, startNs);
    }

    /**
     * A schedule for a take in which headers are written anew as well.
     *
     * @param headerS in s, 0 for no header before the end of a file
     */
    public FlushSchedule(double intervalS, double headerS, int streams, long startNs) {
        this.intervalNs = (long) (intervalS * 1e9);
        this.headerNs = (long) (headerS * 1e9);
        this.lastNs = new long[streams];
        this.headerAtNs = new long[streams];
        Arrays.fill(lastNs, startNs);
        Arrays.fill(headerAtNs, startNs);
    }

    /** Whether the stream's file should be flushed now. */
    public boolean due(int stream, long nowNs) {
        return intervalNs > 0 && nowNs - lastNs[stream] >= intervalNs;
    }

    /** Whether the header of the stream's file should be written anew now. */
    boolean headerDue(int stream, long nowNs) {
        return headerNs > 0 && nowNs - headerAtNs[stream] >= headerNs;
    }

    /** Notes that it was. */
    void headerWritten(int stream, long nowNs) {
        headerAtNs[stream] = nowNs;
    }

    /** Notes that it was flushed. */
    public void flushed(int stream, long nowNs) {
        lastNs[stream] = nowNs;
    }
}

package tracksoak.bench.recorder.loop;

import java.util.Arrays;

/**
 * When each file is flushed: after the first chunk that gets done once {@code flush_s} have passed since its last flush.
 * Flushes are so spread over the interval as the writes are, and a busy drive cannot put them off. Each stream's entry is
 * used by one thread at a time.
 */
public final class FlushSchedule {

    private final long intervalNs;
    private final long[] lastNs;

    /**
     * A schedule for a take.
     *
     * @param intervalS in s, 0 for no flush before the end
     * @param startNs when the take begins, on the clock
     */
    public FlushSchedule(double intervalS, int streams, long startNs) {
        this.intervalNs = (long) (intervalS * 1e9);
        this.lastNs = new long[streams];
        Arrays.fill(lastNs, startNs);
    }

    /** Whether the stream's file should be flushed now. */
    public boolean due(int stream, long nowNs) {
        return intervalNs > 0 && nowNs - lastNs[stream] >= intervalNs;
    }

    /** Notes that it was. */
    public void flushed(int stream, long nowNs) {
        lastNs[stream] = nowNs;
    }
}

package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * One entry per second of the phase, in columns of equal length.
 *
 * @param kib written (or read) in that second, in KiB
 * @param maxServiceMs longest service time that ended in it, in ms
 * @param maxBacklogMs largest backlog of any stream, in ms of audio
 * @param busyMs time inside write, flush and file calls, in ms
 * @param hostDelayMs delay of the host, in ms
 * @param serviceMs service times that ended in it, added up, in ms; null in records made before it was kept
 * @param flushes flushes and changes of file that ended in it; null likewise
 * @param flushMs their times added up, in ms; null likewise
 * @param maxFlushMs the longest of them, in ms; null likewise
 */
public record Series(
        IntColumn kib,
        IntColumn maxServiceMs,
        IntColumn maxBacklogMs,
        IntColumn busyMs,
        IntColumn hostDelayMs,
        @Nullable IntColumn serviceMs,
        @Nullable IntColumn flushes,
        @Nullable IntColumn flushMs,
        @Nullable IntColumn maxFlushMs) {

    /** A series without the sums. */
    public Series(
            IntColumn kib, IntColumn maxServiceMs, IntColumn maxBacklogMs, IntColumn busyMs, IntColumn hostDelayMs) {
        this(kib, maxServiceMs, maxBacklogMs, busyMs, hostDelayMs, null, null, null, null);
    }

    /** Number of seconds. */
    public int length() {
        return kib.size();
    }
}

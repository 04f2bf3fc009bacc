package tracksoak.report.record;

/**
 * One entry per second of the phase, in columns of equal length.
 *
 * @param kib written (or read) in that second, in KiB
 * @param maxServiceMs longest service time that ended in it, in ms
 * @param maxBacklogMs largest backlog of any stream, in ms of audio
 * @param busyMs time inside write, flush and file calls, in ms
 * @param hostDelayMs delay of the host, in ms
 */
public record Series(
        IntColumn kib, IntColumn maxServiceMs, IntColumn maxBacklogMs, IntColumn busyMs, IntColumn hostDelayMs) {

    /** Number of seconds. */
    public int length() {
        return kib.size();
    }
}

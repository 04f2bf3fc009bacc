package tracksoak.bench.phase;

import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;

/**
 * What a plan writes, known beforehand: how much room it needs and how much it wears the drive.
 *
 * @param takesBytes all takes of the plan, headers and padding included
 * @param fillBytes most the fill may write, 0 for a plan without
 * @param fillWantedBytes what the fill writes at least before it may end as steady: what the session itself would write
 */
public record Budget(long takesBytes, long fillBytes, long fillWantedBytes) {

    /** Room of one fill round of small files, below which a fill shows nothing, in bytes. */
    private static final long LEAST_FILL = 16L << 20;

    /**
     * Works out the budget.
     *
     * @param alignment unit of what is written, in bytes
     * @param usableBytes room left on the drive
     * @param reserveBytes room that must stay free
     */
    public static Budget of(Session session, Plan plan, int alignment, long usableBytes, long reserveBytes) {
        long takes =
                takeBytes(session, plan.takeBeforeS(), alignment) + takeBytes(session, plan.takeAfterS(), alignment);
        long room = Math.max(0, usableBytes - reserveBytes - takes);
        long fill = plan.fillCapS() > 0 ? room : 0;
        long sessionBytes = session.bytesPerSecond() * session.lengthS();
        return new Budget(takes, fill, Math.min(sessionBytes, fill));
    }

    /** What a take of {@code seconds} writes, headers and padding included. */
    static long takeBytes(Session session, double seconds, int alignment) {
        if (seconds <= 0) {
            return 0;
        }
        long bytes = 0;
        for (StreamSpec stream : session.streams()) {
            long data = (long) Math.ceil(stream.bytesPerSecond() * seconds);
            long files = data / Math.max(1, session.fileLimitBytes() - alignment) + 1;
            bytes += data + (files + 1) * alignment;
        }
        return bytes;
    }

    /** Least room a run needs besides the reserve, in bytes. */
    public long leastBytes() {
        return takesBytes + (fillBytes > 0 || fillWantedBytes > 0 ? LEAST_FILL : 0);
    }

    /** Most the run may write, in bytes: the wear. */
    public long mostBytes() {
        return takesBytes + fillBytes;
    }
}

package tracksoak.bench.recorder.watch;

/** The host's recent delays, in a ring of fixed size, and their totals. Thread-safe. */
public final class DelayLog implements HostWatch {

    /** Shorter delays are the timer's ordinary slack and are not counted, in ns. */
    public static final long SLACK_NS = 1_000_000;

    private static final int KEPT = 1 << 14;

    private final long[] endNs = new long[KEPT];
    private final long[] lengthNs = new long[KEPT];
    private long events;
    private long totalNs;
    private long maxNs;
    private boolean expects;
    private long expectedNs;

    /** Notes that something is due at {@code dueNs}: until it is told of, it is late from then on. */
    public synchronized void expect(long dueNs) {
        expects = true;
        expectedNs = dueNs;
    }

    /** Notes that something due at {@code dueNs} happened only at {@code nowNs}. Slack is left out. */
    public synchronized void late(long dueNs, long nowNs) {
        expects = false;
        long late = nowNs - dueNs;
        if (late <= SLACK_NS) {
            return;
        }
        int at = (int) (events % KEPT);
        endNs[at] = nowNs;
        lengthNs[at] = late;
        events++;
        totalNs += late;
        maxNs = Math.max(maxNs, late);
    }

    @Override
    public synchronized long delayNs(long fromNs, long toNs) {
        // what held up the one who asks may hold up the canary still
        long sum = expects && toNs - expectedNs > SLACK_NS ? toNs - Math.max(expectedNs, fromNs) : 0;
        for (long event = events - 1; event >= 0 && event >= events - KEPT; event--) {
            int at = (int) (event % KEPT);
            if (endNs[at] <= fromNs) {
                break;
            }
            sum += Math.max(0, Math.min(endNs[at], toNs) - Math.max(endNs[at] - lengthNs[at], fromNs));
        }
        return Math.min(sum, toNs - fromNs);
    }

    /** Sum of all delays in ns. */
    public synchronized long totalNs() {
        return totalNs;
    }

    /** Longest delay in ns. */
    public synchronized long maxNs() {
        return maxNs;
    }
}

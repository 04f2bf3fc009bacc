package tracksoak.bench.phase.timeleft;

import java.util.concurrent.TimeUnit;
import tracksoak.report.stats.RateTrace;

/**
 * Sees at once that a drive has fallen off a cliff, for the time left that is shown and for nothing else: a fill until
 * steady state ends soon after one. The rate counts as fallen as long as it stays below a fifth of the mean before the fall;
 * a stop of 3 s does not look so. One thread.
 */
public final class FallWatch {

    private static final double FALLEN = 0.2;
    private static final long WINDOW_NS = TimeUnit.SECONDS.toNanos(4);
    private static final long NEVER = -1;

    private final RateTrace trace;
    private double before;
    private long fellNs = NEVER;

    public FallWatch(RateTrace trace) {
        this.trace = trace;
    }

    /** When the rate fell, in s since the trace began; NaN if it has not, or has risen again. */
    public double fellAtS(long nowNs) {
        long sinceNs = nowNs - trace.startNs();
        if (sinceNs < 3 * WINDOW_NS) {
            return Double.NaN;
        }
        double lately = trace.bytesBetween(nowNs - WINDOW_NS, nowNs) / WINDOW_NS;
        if (fellNs == NEVER) {
            before = trace.bytesBetween(trace.startNs(), nowNs - WINDOW_NS) / (sinceNs - WINDOW_NS);
        }
        if (lately >= FALLEN * before) {
            fellNs = NEVER;
        } else if (fellNs == NEVER) {
            fellNs = sinceNs - WINDOW_NS;
        }
        return fellNs == NEVER ? Double.NaN : fellNs / 1e9;
    }
}

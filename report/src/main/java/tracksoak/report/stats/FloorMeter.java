package tracksoak.report.stats;

/**
 * The lowest mean rate over any window of one length, exact, while the calls come in. The bytes of one call are spread
 * evenly over the time it took, so what lies in a window is piecewise linear in the window's place: it is least where an
 * edge of the window meets the start or the end of a call, and only there it is looked at. Kept are the calls of the last
 * window alone, 32 bytes each; {@link #add} allocates only while more of them fall in one window than ever before. One
 * thread.
 */
public final class FloorMeter {

    private static final long LONGEST_NS = 30L * 24 * 3600 * 1_000_000_000;

    private final long startNs;
    private final long windowNs;

    private final Knots knots = new Knots();
    private long bytes;
    private long nowNs;
    private double least = Double.MAX_VALUE;

    /**
     * A meter of calls yet to come.
     *
     * @param startNs where it begins, on the monotonic clock in ns
     * @param windowNs length of the window in ns, above 0
     * @throws IllegalArgumentException if the window is not above 0
     */
    public FloorMeter(long startNs, long windowNs) {
        if (windowNs <= 0) {
            throw new IllegalArgumentException("a window of " + windowNs + " ns; it must be above 0 ns");
        }
        this.startNs = startNs;
        this.windowNs = windowNs;
        knots.append(0, 0);
    }

    /**
     * Adds one call. What of it lies before the end of the call before it, or before the start, is left off its time.
     *
     * @param callNs when the call began, on the monotonic clock in ns
     * @param doneNs when it came back, not before {@code callNs} nor before the call before it
     * @param moved bytes it moved, not negative
     * @throws IllegalArgumentException if times or bytes are out of range; a meter spans at most 30 days
     */
    public void add(long callNs, long doneNs, long moved) {
        long from = Math.max(nowNs, callNs - startNs);
        long to = doneNs - startNs;
        if (to < from || to > LONGEST_NS || moved < 0) {
            throw new IllegalArgumentException("a call of " + moved + " bytes from " + from + " ns to " + to
                    + " ns after the start; it must end after it began and after the one before, within 30 days");
        }
        advance(from, 0);
        if (to == from) {
            bytes += moved;
            knots.step(bytes);
        } else {
            advance(to, moved);
        }
    }

    /**
     * The lowest mean rate over any window that lies between the start and {@code toNs}, in B/s; the mean of all if that is
     * shorter than a window, 0 if it is empty. From the last call on nothing was moved.
     *
     * @param toNs end on the monotonic clock in ns; the end of the last call if that is later
     */
    public double floor(long toNs) {
        long to = Math.max(nowNs, toNs - startNs);
        if (to <= windowNs) {
            return to == 0 ? 0 : bytes * 1e9 / to;
        }
        return Math.min(least, bytes - knots.at(to - windowNs)) * 1e9 / windowNs;
    }

    /** Goes on to {@code toNs} while {@code moved} bytes come evenly, and looks wherever one edge meets another. */
    private void advance(long toNs, long moved) {
        if (toNs == nowNs) {
            return;
        }
        long fromNs = nowNs;
        long before = bytes;
        bytes += moved;
        knots.append(toNs, bytes);
        while (nowNs < toNs) {
            long trailing = later(knots.after(nowNs - windowNs) + windowNs, toNs);
            nowNs = Math.min(trailing, toNs);
            knots.forgetBefore(nowNs - windowNs);
            look(before + moved * ((nowNs - fromNs) / (double) (toNs - fromNs)));
        }
    }

    private long later(long ns, long otherwise) {
        return ns > nowNs ? ns : otherwise;
    }

    private void look(double sum) {
        long openedNs = nowNs - windowNs;
        if (openedNs >= 0) {
            least = Math.min(least, sum - knots.at(openedNs));
        }
    }
}

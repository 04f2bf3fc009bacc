package tracksoak.report.stats;

import java.util.Arrays;

/**
 * The lowest mean rate over any window of one length, exact, while the calls come in. The bytes of one call are spread
 * evenly over the time it took, so what lies in a window is piecewise linear in the window's place: it is least where an
 * edge of the window meets the start or the end of a call, and only there it is looked at. Kept are the calls of the last
 * window alone, 32 bytes each; {@link #add} allocates only while more of them fall in one window than ever before. One
 * thread.
 */
public final class FloorMeter {

    private static final int ROUNDS = SteadyState.ROUNDS;
    private static final long LONGEST_NS = 30L * 24 * 3600 * 1_000_000_000;

    private final long startNs;
    private final long windowNs;
    private final long roundNs;

    private final Knots knots = new Knots();
    private long bytes;
    private long nowNs;
    private double least = Double.MAX_VALUE;

    /** Of the round under way and the four before it: least in a window since it began, and bytes until then. */
    private final double[] leastSince = new double[ROUNDS];

    private final double[] bytesAt = new double[ROUNDS];
    private int round;
    private long roundEndNs;
    private double leastOfRounds;

    /**
     * A meter of calls yet to come.
     *
     * @param startNs where it begins, on the monotonic clock in ns
     * @param windowNs length of the window in ns, above 0
     * @param roundNs length of one round in ns, above 0
     * @throws IllegalArgumentException if a length is not above 0
     */
    public FloorMeter(long startNs, long windowNs, long roundNs) {
        if (windowNs <= 0 || roundNs <= 0) {
            throw new IllegalArgumentException(
                    "a window of " + windowNs + " ns and rounds of " + roundNs + " ns; both must be above 0 ns");
        }
        this.startNs = startNs;
        this.windowNs = windowNs;
        this.roundNs = roundNs;
        this.roundEndNs = roundNs;
        Arrays.fill(leastSince, Double.MAX_VALUE);
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

    /**
     * The same over the last {@link SteadyState#ROUNDS} whole rounds alone, in B/s; their mean if a window is longer.
     *
     * @throws IllegalStateException if there are not so many yet
     */
    public double floorOfLastRounds() {
        if (round < ROUNDS) {
            throw new IllegalStateException(round + " whole rounds so far; the floor needs " + ROUNDS);
        }
        return leastOfRounds * 1e9 / Math.min(windowNs, ROUNDS * roundNs);
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
            long sinceRound = later(roundEndNs - roundNs + windowNs % roundNs, toNs);
            nowNs = Math.min(Math.min(trailing, sinceRound), Math.min(roundEndNs, toNs));
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
            double inside = sum - knots.at(openedNs);
            least = Math.min(least, inside);
            for (int begun = round; begun >= 0 && begun > round - ROUNDS; begun--) {
                if (openedNs >= begun * roundNs) {
                    leastSince[begun % ROUNDS] = Math.min(leastSince[begun % ROUNDS], inside);
                }
            }
        }
        if (nowNs == roundEndNs) {
            nextRound(sum);
        }
    }

    private void nextRound(double sum) {
        round++;
        roundEndNs += roundNs;
        int slot = round % ROUNDS;
        if (round >= ROUNDS) {
            leastOfRounds = ROUNDS * roundNs <= windowNs ? sum - bytesAt[slot] : leastSince[slot];
        }
        bytesAt[slot] = sum;
        leastSince[slot] = Double.MAX_VALUE;
    }
}

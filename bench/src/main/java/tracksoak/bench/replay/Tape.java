package tracksoak.bench.replay;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Series;

/**
 * What a take's record tells of the drive's service times, second by second: how many writes ended in it, the longest, and
 * the mean of the others; the same for flushes. A second without any has the figures of its nearest neighbours. In ns.
 */
final class Tape {

    private static final long SECOND = 1_000_000_000L;
    private static final long MILLI = 1_000_000L;

    /** Times are kept in whole ms: half of one may be missing. */
    private static final long ROUNDING_NS = MILLI / 2;

    /** Longer than so many usual writes, and than this, a write is a stall and not the luck of the draw. */
    private static final int STALL_TIMES = 4;

    /** Several writes in a row may all be slower than usual: part of the way from the usual to the longest, 1 in so many. */
    private static final int LUCK = 6;

    private static final long STALL_NS = 20 * MILLI;

    final int seconds;
    final long[] writes;
    final long[] longestNs;
    final boolean[] stall;
    private final long[] usualNs;
    private final long[] unluckyNs;
    private final long[] flushes;
    private final long[] longestFlushNs;
    private final long[] usualFlushNs;
    private long regularStallNs;
    private long slowestUsualNs;

    private Tape(int seconds) {
        this.seconds = seconds;
        writes = new long[seconds];
        longestNs = new long[seconds];
        stall = new boolean[seconds];
        usualNs = new long[seconds];
        unluckyNs = new long[seconds];
        flushes = new long[seconds];
        longestFlushNs = new long[seconds];
        usualFlushNs = new long[seconds];
    }

    /**
     * The tape of a take, null if its record does not hold enough.
     *
     * @param chunkBytes bytes of every write, after rounding
     */
    static @Nullable Tape of(PhaseFacts take, int chunkBytes) {
        Series series = take.series();
        if (series == null || series.length() == 0) {
            return null;
        }
        IntColumn service = series.serviceMs();
        IntColumn flushCount = series.flushes();
        IntColumn flushSum = series.flushMs();
        IntColumn flushMax = series.maxFlushMs();
        if (service == null || flushCount == null || flushSum == null || flushMax == null) {
            return null;
        }
        Tape tape = new Tape(series.length());
        boolean any = false;
        for (int s = 0; s < tape.seconds; s++) {
            tape.writes[s] = series.kib().get(s) * 1024L / chunkBytes;
            tape.longestNs[s] = series.maxServiceMs().get(s) * MILLI;
            tape.usualNs[s] = rest(service.get(s) * MILLI, tape.longestNs[s], tape.writes[s]);
            tape.flushes[s] = flushCount.get(s);
            tape.longestFlushNs[s] = flushMax.get(s) * MILLI;
            tape.usualFlushNs[s] = rest(flushSum.get(s) * MILLI, tape.longestFlushNs[s], tape.flushes[s]);
            any |= tape.writes[s] > 0;
        }
        if (!any) {
            return null;
        }
        tape.fillIn();
        return tape;
    }

    /** Mean of all but the longest; −1 where there is no other. */
    private static long rest(long sum, long longest, long count) {
        return count < 2 ? -1 : Math.max(0, sum - longest) / (count - 1);
    }

    private void fillIn() {
        long typical = median(usualNs);
        for (int s = 0; s < seconds; s++) {
            if (usualNs[s] < 0 && writes[s] > 0) {
                boolean odd = typical >= 0 && isStall(longestNs[s], typical);
                usualNs[s] = odd ? typical : longestNs[s];
            }
            stall[s] = writes[s] > 0 && isStall(longestNs[s], usualNs[s]);
            slowestUsualNs = Math.max(slowestUsualNs, usualNs[s]);
            unluckyNs[s] = stall[s] ? usualNs[s] : usualNs[s] + (longestNs[s] - usualNs[s]) / LUCK;
            if (usualFlushNs[s] < 0 && flushes[s] > 0) {
                usualFlushNs[s] = longestFlushNs[s];
            }
        }
        long[] longest = new long[seconds];
        for (int s = 0; s < seconds; s++) {
            longest[s] = writes[s] > 0 ? longestNs[s] : -1;
        }
        long regular = median(longest);
        regularStallNs = isStall(regular, Math.max(0, typical)) ? regular : 0;
    }

    private static boolean isStall(long longestNs, long usualNs) {
        return longestNs > STALL_NS && longestNs > STALL_TIMES * usualNs;
    }

    /** Of those known; −1 if none is. */
    private static long median(long[] values) {
        long[] known =
                Arrays.stream(values).filter(value -> value >= 0).sorted().toArray();
        return known.length == 0 ? -1 : known[known.length / 2];
    }

    /** Usual write around a second: the slowest of its neighbours, or the fastest. */
    long usualNs(int second, boolean slowest) {
        return around(second, slowest, slowest ? unluckyNs : usualNs, writes);
    }

    /** By what factor usual writes were slower at their slowest than around a second; at least 1. */
    double slowerThan(int second) {
        long then = usualNs(second, false);
        return then > 0 ? Math.max(1, slowestUsualNs / (double) then) : 1;
    }

    /** Longest write that ended in a second, not less than it really was. */
    long longestAtMostNs(int second) {
        return longestNs[second] + ROUNDING_NS;
    }

    /** Usual flush around a second. */
    long usualFlushNs(int second, boolean slowest) {
        return around(second, slowest, usualFlushNs, flushes) + (slowest ? ROUNDING_NS : 0);
    }

    /** Longest flush around a second, 0 where there was none at all. */
    long longestFlushNs(int second) {
        return Math.max(0, around(second, true, longestFlushNs, flushes)) + ROUNDING_NS;
    }

    /**
     * The pause a drive makes in most seconds, 0 if it makes none. It may fall together with a stall, and what a second
     * tells is the longest write alone.
     */
    long regularStallNs() {
        return regularStallNs;
    }

    /** Longest write that is a stall, 0 if none is. */
    long longestStallNs() {
        long most = 0;
        for (int s = 0; s < seconds; s++) {
            most = stall[s] ? Math.max(most, longestAtMostNs(s)) : most;
        }
        return most;
    }

    /** Longest write of all. */
    long longestOfAllNs() {
        return Arrays.stream(longestNs).max().orElse(0) + ROUNDING_NS;
    }

    /** Second of a moment, within the tape. */
    int second(long ns) {
        return (int) Math.max(0, Math.min(seconds - 1L, ns / SECOND));
    }

    /** Of the second and its neighbours; where none of them knows anything the nearest that does. */
    private long around(int second, boolean largest, long[] values, long[] counts) {
        long best = -1;
        for (int reach = 1; best < 0 && reach <= seconds; reach = reach * 2) {
            for (int s = Math.max(0, second - reach); s <= Math.min(seconds - 1, second + reach); s++) {
                boolean known = values[s] >= 0 && counts[s] > 0;
                if (known && (best < 0 || (largest ? values[s] > best : values[s] < best))) {
                    best = values[s];
                }
            }
        }
        return Math.max(0, best);
    }
}

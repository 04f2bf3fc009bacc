package tracksoak.bench.recorder.loop;

import org.HdrHistogram.Histogram;
import tracksoak.bench.recorder.watch.AbandonedException;
import tracksoak.bench.recorder.watch.HostWatch;

/**
 * What a take and a playback book alike: how long calls took and what they moved, how long chunks waited, what was lost,
 * second by second. All times in ns since the take or playback began. Not thread-safe: its ledger locks.
 */
final class CallBooks {

    private static final long NEVER = RoundRobin.NEVER;
    private static final long SECOND = 1_000_000_000L;

    private final StreamTable table;
    private final HostWatch host;
    private final StallMeter stalls;
    private final OverrunLog losses;
    private final SecondSeries series;
    private final InFlight inFlight;
    private final Histogram service = Histograms.nanoseconds();
    private final Histogram response = Histograms.nanoseconds();
    private final Histogram upkeep = Histograms.nanoseconds();

    private long waitingSinceNs = NEVER;
    private long behindSinceNs = NEVER;
    private long lastDoneNs;
    private long bytes;
    private long operations;
    private long sampledSecond;
    private double peakMs;
    private long peakAtNs;
    private long peakHostNs;
    private double worstServiceMs;
    private boolean abandoned;

    CallBooks(StreamTable table, long stallLimitNs, HostWatch host, InFlight inFlight) {
        this.table = table;
        this.host = host;
        this.inFlight = inFlight;
        this.stalls = new StallMeter(stallLimitNs, host);
        this.losses = new OverrunLog(table, host);
        this.series = new SecondSeries((int) (table.lengthNs() / SECOND) + 1);
    }

    boolean abandoned() {
        return abandoned;
    }

    void refuseIfAbandoned() {
        if (abandoned) {
            throw new AbandonedException();
        }
    }

    /** Since when a chunk that is claimed now has kept the drive waiting for nothing else. */
    long waitedForNs(RoundRobin turns) {
        return waitingSinceNs == NEVER ? Math.max(lastDoneNs, turns.earliestNs()) : waitingSinceNs;
    }

    void waitsSince(long ns) {
        waitingSinceNs = ns;
        behindSinceNs = Math.min(behindSinceNs, ns);
    }

    /** A call is made, whatever it is for. */
    void calls(long ns) {
        inFlight.called(ns);
    }

    /** Books a chunk moved; {@code more} says whether another waits already. */
    void moved(long dueNs, long calledNs, long doneNs, int moved, boolean more) {
        record(service, doneNs - calledNs);
        record(response, doneNs - dueNs);
        worstServiceMs = Math.max(worstServiceMs, (doneNs - calledNs) / 1e6);
        series.moved(calledNs, doneNs, moved);
        returned(doneNs);
        bytes += moved;
        operations++;
        stalls.waited(waitingSinceNs, doneNs);
        lastDoneNs = doneNs;
        waitingSinceNs = more ? doneNs : NEVER;
        if (!more) {
            losses.caughtUp(doneNs);
            behindSinceNs = NEVER;
        }
    }

    void flushed(long calledNs, long doneNs) {
        record(upkeep, doneNs - calledNs);
        series.flush(calledNs, doneNs);
        returned(doneNs);
    }

    void changedFile(long calledNs, long doneNs) {
        record(upkeep, doneNs - calledNs);
        returned(doneNs);
    }

    void hostDelay(long fromNs, long toNs) {
        series.hostDelay(fromNs, toNs);
    }

    /** Books audio that a stream lost, the first of it at {@code atNs}. */
    void lost(int stream, long lostBytes, long atNs, long nowNs) {
        losses.lost(stream, lostBytes, atNs, behindSinceNs, nowNs);
    }

    /**
     * Books a backlog in ms of audio, and the host's share of it where it is the largest so far: what the host was late since
     * the drive last had nothing to do, for a backlog stays until it is worked off.
     */
    void backlog(long nowNs, double ms) {
        series.backlog(nowNs, ms);
        if (ms > peakMs) {
            peakMs = ms;
            peakAtNs = nowNs;
            long ns = (long) (ms * 1e6);
            long late = host.delayNs(Math.min(nowNs - ns, behindSinceNs), nowNs);
            peakHostNs = Math.min(ns, Math.max(late, behindSinceNs == NEVER ? 0 : host.heldUpNs(behindSinceNs, nowNs)));
        }
    }

    /** Goes on to the next full second that is over by {@code nowNs} and not sampled; false if there is none. */
    boolean nextSecond(long nowNs) {
        boolean over = (sampledSecond + 1) * SECOND <= nowNs;
        sampledSecond += over ? 1 : 0;
        return over;
    }

    /** The end of the second that is sampled. */
    long secondNs() {
        return sampledSecond * SECOND;
    }

    /** Samples a stream's backlog at the end of the second. */
    void sample(double ms) {
        series.backlog(secondNs() - 1, ms);
    }

    /** Closes the books, as the call made at {@code calledNs} never came back. */
    void abandon(long calledNs, long nowNs) {
        if (waitingSinceNs != NEVER) {
            stalls.waited(waitingSinceNs, nowNs);
        }
        series.busy(inFlight.abandoned(calledNs, nowNs), nowNs);
        worstServiceMs = Math.max(worstServiceMs, (nowNs - calledNs) / 1e6);
        losses.caughtUp(nowNs);
        abandoned = true;
    }

    RecorderLedger.Glance glance(double backlogMs, long[] lostBytes) {
        double lostMs = 0;
        int hit = 0;
        for (int i = 0; i < lostBytes.length; i++) {
            lostMs = Math.max(lostMs, table.millis(i, lostBytes[i]));
            hit += lostBytes[i] > 0 ? 1 : 0;
        }
        return new RecorderLedger.Glance(
                backlogMs, Math.max(peakMs, backlogMs), worstServiceMs, lostMs, hit, bytes, inFlight.busyNs());
    }

    /** The figures so far, copied, with what the ledger knows of every stream. */
    TakeFigures figures(long nowNs, long[] doneBytes, long[] lostBytes, long[] peakBytes) {
        return TakeFigures.of(
                table,
                new TakeFigures.Totals(
                        bytes,
                        operations,
                        Math.min(inFlight.busyNs(), nowNs),
                        peakMs,
                        peakAtNs,
                        peakHostNs,
                        worstServiceMs),
                doneBytes,
                lostBytes,
                peakBytes,
                stalls,
                losses.listed(nowNs),
                new TakeFigures.Histograms(service.copy(), response.copy(), upkeep.copy()),
                series.toSeries());
    }

    private void returned(long ns) {
        series.busy(inFlight.returned(ns), ns);
    }

    private static void record(Histogram histogram, long ns) {
        histogram.recordValue(Math.min(Math.max(ns, 0), histogram.getHighestTrackableValue()));
    }
}

package tracksoak.bench.recorder.loop;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;

/**
 * Puts dropped chunks together to overruns: what all streams lose before the writer has caught up once is one overrun.
 * Not thread-safe: its owner locks.
 */
final class OverrunLog {

    private static final long NONE = Long.MAX_VALUE;

    private final StreamTable table;
    private final HostWatch host;
    private final long[] lostInThis;
    private final List<Overrun> listed = new ArrayList<>();
    private long firstLossNs = NONE;
    private long behindSinceNs = NONE;

    OverrunLog(StreamTable table, HostWatch host) {
        this.table = table;
        this.host = host;
        this.lostInThis = new long[table.streams()];
    }

    /**
     * Notes that a stream lost {@code bytes}, the first of them at {@code atNs}.
     *
     * @param behindSince when the drive last had nothing to do: from there on the host's delays count
     */
    void lost(int stream, long bytes, long atNs, long behindSince, long nowNs) {
        lostInThis[stream] += bytes;
        firstLossNs = Math.min(firstLossNs, atNs);
        behindSinceNs = Math.min(behindSinceNs, Math.min(behindSince, nowNs));
    }

    /** Notes that nothing waits any more: the overrun, if one is open, is over. */
    void caughtUp(long nowNs) {
        if (firstLossNs == NONE) {
            return;
        }
        if (listed.size() < PhaseFacts.MOST_LISTED) {
            listed.add(open(nowNs));
        }
        Arrays.fill(lostInThis, 0);
        firstLossNs = NONE;
        behindSinceNs = NONE;
    }

    /** The overruns so far, in order of time; the last one may still be going on. */
    List<Overrun> listed(long nowNs) {
        List<Overrun> all = new ArrayList<>(listed);
        if (firstLossNs != NONE && all.size() < PhaseFacts.MOST_LISTED) {
            all.add(open(nowNs));
        }
        return all;
    }

    private Overrun open(long nowNs) {
        double worstMs = 0;
        int tracks = 0;
        for (int i = 0; i < lostInThis.length; i++) {
            if (lostInThis[i] > 0) {
                worstMs = Math.max(worstMs, table.millis(i, lostInThis[i]));
                tracks += table.tracks(i);
            }
        }
        long from = Math.max(0, Math.min(behindSinceNs, firstLossNs));
        return new Overrun(firstLossNs / 1e9, worstMs, tracks, host.heldUpNs(from, nowNs) / 1e6);
    }
}

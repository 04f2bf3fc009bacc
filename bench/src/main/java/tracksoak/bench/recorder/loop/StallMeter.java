package tracksoak.bench.recorder.loop;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Stall;

/** Keeps the stalls of a phase: all of them counted, the longest listed. Not thread-safe: its owner locks. */
public final class StallMeter {

    private final long limitNs;
    private final HostWatch host;
    private final PriorityQueue<Stall> longest = new PriorityQueue<>(Comparator.comparingDouble(Stall::ms));
    private long count;
    private long totalNs;

    /**
     * Starts with none.
     *
     * @param limitNs only longer intervals are stalls, in ns
     * @param host knows the host's share; its clock runs from the same zero as the times given
     */
    public StallMeter(long limitNs, HostWatch host) {
        this.limitNs = limitNs;
        this.host = host;
    }

    /** Notes an interval in which something was ready and nothing got done. */
    public void waited(long fromNs, long toNs) {
        if (toNs - fromNs <= limitNs) {
            return;
        }
        count++;
        totalNs += toNs - fromNs;
        longest.add(new Stall(fromNs / 1e9, (toNs - fromNs) / 1e6, host.heldUpNs(fromNs, toNs) / 1e6));
        if (longest.size() > PhaseFacts.MOST_LISTED) {
            longest.poll();
        }
    }

    /** Stalls seen. */
    public long count() {
        return count;
    }

    /** Their total in ms. */
    public double totalMs() {
        return totalNs / 1e6;
    }

    /** The longest, in order of time. */
    public List<Stall> listed() {
        List<Stall> listed = new ArrayList<>(longest);
        listed.sort(Comparator.comparingDouble(Stall::atS));
        return listed;
    }
}

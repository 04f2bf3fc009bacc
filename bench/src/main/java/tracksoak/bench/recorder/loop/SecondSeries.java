package tracksoak.bench.recorder.loop;

import java.util.Arrays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.Series;

/** One entry per second of a phase; grows with its length only. Not thread-safe: its owner locks. */
public final class SecondSeries {

    private static final long SECOND = 1_000_000_000L;
    private static final long MILLI = 1_000_000L;

    private long[] bytes;
    private long[] maxServiceNs;
    private double[] maxBacklogMs;
    private long[] busyNs;
    private long[] hostNs;
    private long[] serviceNs;
    private int[] flushes;
    private long[] flushNs;
    private long[] maxFlushNs;
    private int used;

    /** Makes room for {@code expectedSeconds}, so that none has to be made meanwhile. */
    public SecondSeries(int expectedSeconds) {
        int room = Math.max(16, expectedSeconds + 2);
        bytes = new long[room];
        maxServiceNs = new long[room];
        maxBacklogMs = new double[room];
        busyNs = new long[room];
        hostNs = new long[room];
        serviceNs = new long[room];
        flushes = new int[room];
        flushNs = new long[room];
        maxFlushNs = new long[room];
    }

    /** Notes a call with no other in flight: what {@link #moved} notes, and busy time where it was spent. */
    public void call(long fromNs, long toNs, long callBytes) {
        moved(fromNs, toNs, callBytes);
        busy(fromNs, toNs);
    }

    /** Notes bytes and service time of a call where it ended. */
    void moved(long fromNs, long toNs, long callBytes) {
        int end = second(toNs);
        bytes[end] += callBytes;
        maxServiceNs[end] = Math.max(maxServiceNs[end], toNs - fromNs);
        serviceNs[end] += toNs - fromNs;
    }

    /** Notes time in which something was in flight. */
    void busy(long fromNs, long toNs) {
        second(toNs);
        spread(busyNs, fromNs, toNs);
    }

    /** Notes a flush or a change of file where it ended. */
    public void flush(long fromNs, long toNs) {
        int end = second(toNs);
        flushes[end]++;
        flushNs[end] += toNs - fromNs;
        maxFlushNs[end] = Math.max(maxFlushNs[end], toNs - fromNs);
    }

    /** Notes a delay of the host. */
    public void hostDelay(long fromNs, long toNs) {
        second(toNs);
        spread(hostNs, fromNs, toNs);
    }

    /** Notes a backlog seen at {@code atNs}. */
    public void backlog(long atNs, double ms) {
        int at = second(atNs);
        maxBacklogMs[at] = Math.max(maxBacklogMs[at], ms);
    }

    /** A copy of what has been noted, for the record. */
    public Series toSeries() {
        return new Series(
                column(i -> bytes[i] / 1024),
                column(i -> (maxServiceNs[i] + MILLI / 2) / MILLI),
                column(i -> Math.round(maxBacklogMs[i])),
                column(i -> (busyNs[i] + MILLI / 2) / MILLI),
                column(i -> (hostNs[i] + MILLI / 2) / MILLI),
                column(i -> (serviceNs[i] + MILLI / 2) / MILLI),
                column(i -> flushes[i]),
                column(i -> (flushNs[i] + MILLI / 2) / MILLI),
                column(i -> (maxFlushNs[i] + MILLI / 2) / MILLI));
    }

    private IntColumn column(java.util.function.IntToLongFunction value) {
        int[] column = new int[used];
        for (int i = 0; i < used; i++) {
            column[i] = (int) Math.min(Integer.MAX_VALUE, value.applyAsLong(i));
        }
        return IntColumn.of(column);
    }

    private int second(long ns) {
        int at = (int) Math.max(0, ns / SECOND);
        if (at >= bytes.length) {
            int room = Math.max(at + 1, bytes.length + bytes.length / 2);
            bytes = Arrays.copyOf(bytes, room);
            maxServiceNs = Arrays.copyOf(maxServiceNs, room);
            maxBacklogMs = Arrays.copyOf(maxBacklogMs, room);
            busyNs = Arrays.copyOf(busyNs, room);
            hostNs = Arrays.copyOf(hostNs, room);
            serviceNs = Arrays.copyOf(serviceNs, room);
            flushes = Arrays.copyOf(flushes, room);
            flushNs = Arrays.copyOf(flushNs, room);
            maxFlushNs = Arrays.copyOf(maxFlushNs, room);
        }
        used = Math.max(used, at + 1);
        return at;
    }

    private static void spread(long[] column, long fromNs, long toNs) {
        long at = Math.max(0, fromNs);
        while (at < toNs) {
            long next = Math.min(toNs, (at / SECOND + 1) * SECOND);
            column[(int) (at / SECOND)] += next - at;
            at = next;
        }
    }
}

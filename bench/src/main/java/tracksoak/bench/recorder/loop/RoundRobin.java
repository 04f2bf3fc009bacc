package tracksoak.bench.recorder.loop;

import java.util.Arrays;

/**
 * Whose turn it is: when the next chunk of every stream is due, in ns, and which streams have theirs in flight. Not
 * thread-safe: its ledger locks.
 */
final class RoundRobin {

    /** When a stream's next chunk is due that has none left. */
    static final long NEVER = Long.MAX_VALUE;

    private final long[] dueNs;
    private final boolean[] inFlight;
    private int last;

    /** The first stream's turn; nothing is due before {@link #next} says so. */
    RoundRobin(int streams) {
        dueNs = new long[streams];
        Arrays.fill(dueNs, NEVER);
        inFlight = new boolean[streams];
        last = streams - 1;
    }

    /** The stream so many turns after the one that had its turn last. */
    int after(int turns) {
        int stream = last + turns;
        return stream >= dueNs.length ? stream - dueNs.length : stream;
    }

    boolean waits(int stream, long nowNs) {
        return dueNs[stream] <= nowNs && !inFlight[stream];
    }

    void take(int stream) {
        inFlight[stream] = true;
        last = stream;
    }

    void giveBack(int stream) {
        inFlight[stream] = false;
    }

    long dueNs(int stream) {
        return dueNs[stream];
    }

    void next(int stream, long atNs) {
        dueNs[stream] = atNs;
    }

    /** Whether any chunk is due, be it in flight or not. */
    boolean anyDue(long nowNs) {
        for (int turns = 1; turns <= dueNs.length; turns++) {
            if (dueNs[after(turns)] <= nowNs) {
                return true;
            }
        }
        return false;
    }

    /** When the earliest chunk is due, be it in flight or not. */
    long earliestNs() {
        long earliest = NEVER;
        for (long due : dueNs) {
            earliest = Math.min(earliest, due);
        }
        return earliest;
    }

    /** When the earliest chunk is due that is not in flight. */
    long earliestFreeNs() {
        long earliest = NEVER;
        for (int i = 0; i < dueNs.length; i++) {
            if (!inFlight[i]) {
                earliest = Math.min(earliest, dueNs[i]);
            }
        }
        return earliest;
    }
}

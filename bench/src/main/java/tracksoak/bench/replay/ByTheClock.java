package tracksoak.bench.replay;

/**
 * Service times as if the drive's moods came by the clock: what was seen in a second is met in that second again.
 *
 * <p>Cautious: a stall waits for the first write from the earliest moment on at which it can have begun, lasts its whole
 * length, {@code gapNs} more and the pause of most seconds, and none is ever spared; every other write is as slow as the slowest neighbouring second's
 * usual one. Hopeful: a stall has a place in time and is missed by whoever does not write then.
 */
final class ByTheClock implements Timing {

    private static final long SECOND = 1_000_000_000L;

    private final Tape tape;
    private final boolean cautious;
    private final long gapNs;
    private final long longestOfAllNs;
    /** Seconds whose longest write has come again; a long one may have begun before a shorter one of an earlier second. */
    private final boolean[] met;

    private int next;
    private int flushedSecond = -1;

    ByTheClock(Tape tape, boolean cautious, long gapNs) {
        this.tape = tape;
        this.cautious = cautious;
        this.gapNs = gapNs;
        this.longestOfAllNs = tape.longestOfAllNs();
        this.met = new boolean[tape.seconds];
    }

    @Override
    public long writeNs(long atNs) {
        return cautious ? cautiously(atNs) : hopefully(atNs);
    }

    private long cautiously(long atNs) {
        long usual = tape.usualNs(tape.second(atNs), true);
        long longest = usual;
        long stalls = 0;
        for (int s = next; s < tape.seconds && s * SECOND - longestOfAllNs - gapNs <= atNs; s++) {
            if (met[s] || tape.writes[s] == 0 || s * SECOND - tape.longestAtMostNs(s) - gapNs > atNs) {
                continue;
            }
            met[s] = true;
            if (tape.stall[s]) {
                stalls += tape.longestAtMostNs(s) + gapNs + tape.regularStallNs();
            } else {
                longest = Math.max(longest, tape.longestAtMostNs(s));
            }
        }
        while (next < tape.seconds && (met[next] || tape.writes[next] == 0)) {
            next++;
        }
        return stalls + longest;
    }

    private long hopefully(long atNs) {
        long usual = tape.usualNs(tape.second(atNs), false);
        long rest = 0;
        for (int s = tape.second(atNs); s < tape.seconds; s++) {
            long end = s * SECOND + SECOND / 2;
            if (tape.stall[s] && end - tape.longestNs[s] <= atNs && atNs < end) {
                rest = Math.max(rest, end - atNs);
            }
            if (end - longestOfAllNs > atNs) {
                break;
            }
        }
        return rest + usual;
    }

    @Override
    public long flushNs(long atNs) {
        int second = tape.second(atNs);
        if (cautious && second != flushedSecond) {
            flushedSecond = second;
            return tape.longestFlushNs(second);
        }
        return tape.usualFlushNs(second, cautious);
    }
}

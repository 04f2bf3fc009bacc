package tracksoak.bench.replay;

/**
 * Service times as if the drive's moods came by what is written to it: what the run's k-th write met the k-th write meets
 * again, within the second of the run it ended in.
 */
final class ByTheByte implements Timing {

    private final Tape tape;
    private final boolean cautious;
    private final long gapNs;
    private int second;
    private long doneInSecond;

    ByTheByte(Tape tape, boolean cautious, long gapNs) {
        this.tape = tape;
        this.cautious = cautious;
        this.gapNs = gapNs;
    }

    @Override
    public long writeNs(long atNs) {
        while (second < tape.seconds - 1 && doneInSecond >= tape.writes[second]) {
            second++;
            doneInSecond = 0;
        }
        boolean first = doneInSecond == 0 && tape.writes[second] > 0;
        doneInSecond++;
        return cautious ? cautiously(first, atNs) : hopefully(first);
    }

    /** What slows every write may follow the clock all the same, and a pause that falls into its worst lasts as much longer. */
    private long cautiously(boolean first, long atNs) {
        long usual = Math.max(tape.usualNs(second, true), tape.usualNs(tape.second(atNs), true));
        if (!first) {
            return usual;
        }
        long longest = tape.longestAtMostNs(second);
        if (!tape.stall[second]) {
            return Math.max(usual, longest);
        }
        return Math.max(usual, Math.round(tape.slowerThan(second) * longest)) + gapNs + tape.regularStallNs();
    }

    private long hopefully(boolean first) {
        long usual = tape.usualNs(second, false);
        return first ? Math.max(usual, tape.longestNs[second]) : usual;
    }

    @Override
    public long flushNs(long atNs) {
        return tape.usualFlushNs(second, cautious);
    }
}

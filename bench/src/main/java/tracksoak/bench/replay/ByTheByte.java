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
        long usual = tape.usualNs(second, cautious);
        if (!first) {
            return usual;
        }
        long gap = cautious && tape.stall[second] ? gapNs + tape.regularStallNs() : 0;
        return cautious ? Math.max(usual, tape.longestAtMostNs(second)) + gap : Math.max(usual, tape.longestNs[second]);
    }

    @Override
    public long flushNs(long atNs) {
        return tape.usualFlushNs(second, cautious);
    }
}

package tracksoak.bench.phase.timeleft;

import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** How fast the drive has worked so far, for the time left that is shown and for nothing else. One thread. */
public final class Pace {

    /** Stands for a time that cannot be told. */
    public static final double UNKNOWN = -1;

    /** A close takes about this long until one was seen, in s. */
    private static final double USUAL_CLOSE_S = 1;

    /** Less tells nothing of a rate, in bytes. */
    private static final long LEAST_BYTES = 4 << 20;

    private DiskShape shape = DiskShape.EVEN;
    /** Rates as they are at the beginning of the drive, in B/s; 0 until seen. */
    private double writes;

    private double reads;
    private double wear = 1;
    private double closeS = USUAL_CLOSE_S;

    /** Says how the rate changes with the place. */
    public void on(DiskShape newShape) {
        shape = newShape;
    }

    public DiskShape shape() {
        return shape;
    }

    /** A phase has ended. */
    public void learn(PhaseFacts facts) {
        meanwhile(facts.kind(), facts.bytes(), busyS(facts));
        CloseFacts close = facts.close();
        closeS = close == null ? closeS : close.totalMs() / 1e3;
    }

    private static double busyS(PhaseFacts facts) {
        boolean paced = facts.kind() == PhaseKind.TAKE || facts.kind() == PhaseKind.PLAYBACK;
        return paced ? facts.seconds() * facts.busyFraction() : facts.seconds();
    }

    /** A phase goes on: so many bytes in so many s inside calls. */
    public void meanwhile(PhaseKind kind, long bytes, double busyS) {
        if (bytes < LEAST_BYTES || busyS <= 0) {
            return;
        }
        double rate = atBeginning(bytes, busyS);
        switch (kind) {
            // at session rate a pause weighs too much, so what was seen flat out counts
            case TAKE -> writes = writes > 0 ? writes : rate;
            case FILL, COPY -> writes = rate;
            case READ_BACK, KEEPSAKE -> sawReads(rate);
            case PLAYBACK -> reads = reads > 0 ? reads : rate;
            case CLOSE -> {}
        }
    }

    private double atBeginning(long bytes, double seconds) {
        return bytes / seconds * shape.slowness(0, (double) bytes);
    }

    private void sawReads(double rate) {
        reads = rate;
        wear = 1;
    }

    /**
     * Writing wears the drive: a byte will take so many times as long to write at the end of what is being written as at its beginning. What
     * wears it makes reading slower too, until that is seen itself.
     */
    public void wears(double times) {
        wear = times;
    }

    /** Small files were written, flushed and read to see how fast that goes; times in s. */
    public void felt(long bytes, double writingS, double readingS) {
        writes = bytes > 0 && writingS > 0 ? atBeginning(bytes, writingS) : writes;
        reads = bytes > 0 && readingS > 0 ? atBeginning(bytes, readingS) : reads;
    }

    /** Time to write so many bytes flat out, in s, or {@link #UNKNOWN}. */
    public double secondsToWrite(double bytes) {
        return bytes <= 0 ? 0 : writes <= 0 ? UNKNOWN : bytes / writes * shape.slowness(0, bytes);
    }

    /** Time to read so many bytes, in s, or {@link #UNKNOWN}; until something was read, as if reads were as fast as writes. */
    public double secondsToRead(double bytes) {
        return reads > 0 ? bytes / reads * wear * shape.slowness(0, bytes) : secondsToWrite(bytes);
    }

    /** Time of a close in s. */
    public double closeS() {
        return closeS;
    }
}

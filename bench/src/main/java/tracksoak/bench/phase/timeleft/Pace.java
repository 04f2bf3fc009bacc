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

    private final Direction writes = new Direction();
    private final Direction reads = new Direction();
    private double closeS = USUAL_CLOSE_S;

    /** Rates in B/s, 0 until seen. At session rate a pause weighs too much, so what was seen flat out counts first. */
    private static final class Direction {
        private double flatOut;
        private double paced;

        private double bytesPerSecond() {
            return flatOut > 0 ? flatOut : paced;
        }
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
        double rate = bytes / busyS;
        switch (kind) {
            case TAKE -> writes.paced = rate;
            case FILL, COPY -> writes.flatOut = rate;
            case READ_BACK, KEEPSAKE -> reads.flatOut = rate;
            case PLAYBACK -> reads.paced = rate;
            case CLOSE, PROBES -> {}
        }
    }

    /** Time to write so many bytes flat out, in s, or {@link #UNKNOWN}. */
    public double secondsToWrite(double bytes) {
        return seconds(bytes, writes.bytesPerSecond());
    }

    /** Time to read so many bytes, in s, or {@link #UNKNOWN}; until something was read, as if reads were as fast as writes. */
    public double secondsToRead(double bytes) {
        double rate = reads.bytesPerSecond();
        return rate > 0 ? seconds(bytes, rate) : secondsToWrite(bytes);
    }

    private static double seconds(double bytes, double bytesPerSecond) {
        return bytes <= 0 ? 0 : bytesPerSecond <= 0 ? UNKNOWN : bytes / bytesPerSecond;
    }

    /** Time of a close in s. */
    public double closeS() {
        return closeS;
    }
}

package tracksoak.bench.phase;

import tracksoak.report.record.CloseFacts;
import tracksoak.report.record.PhaseFacts;

/** How fast the drive has worked so far, for the time left that is shown and for nothing else. One thread. */
final class Pace {

    /** Stands for a time that cannot be told. */
    static final double UNKNOWN = -1;

    /** A close takes about this long until one was seen, in s. */
    private static final double USUAL_CLOSE_S = 1;

    private double writes;
    private double reads;
    private double closeS = USUAL_CLOSE_S;

    /** A phase has ended. */
    void learn(PhaseFacts facts) {
        switch (facts.kind()) {
            case TAKE -> wrote(facts.bytes(), facts.seconds() * facts.busyFraction());
            case FILL, COPY -> wrote(facts.bytes(), facts.seconds());
            case READ_BACK -> read(facts.bytes(), facts.seconds());
            case CLOSE -> {
                CloseFacts close = facts.close();
                closeS = close == null ? closeS : close.totalMs() / 1e3;
            }
            case PLAYBACK, KEEPSAKE -> {}
        }
    }

    /** So many bytes were written flat out in so many s. */
    void wrote(long bytes, double seconds) {
        writes = bytes > 0 && seconds > 0 ? bytes / seconds : writes;
    }

    /** So many bytes were read flat out in so many s. */
    void read(long bytes, double seconds) {
        reads = bytes > 0 && seconds > 0 ? bytes / seconds : reads;
    }

    /** Time to write so many bytes flat out, in s, or {@link #UNKNOWN}. */
    double secondsToWrite(double bytes) {
        return bytes <= 0 ? 0 : writes <= 0 ? UNKNOWN : bytes / writes;
    }

    /** Time to read so many bytes, in s, or {@link #UNKNOWN}; until something was read, as if reads were as fast as writes. */
    double secondsToRead(double bytes) {
        return reads > 0 ? bytes / reads : secondsToWrite(bytes);
    }

    /** Time of a close in s. */
    double closeS() {
        return closeS;
    }
}

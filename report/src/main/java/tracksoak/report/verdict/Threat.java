package tracksoak.report.verdict;

import tracksoak.profiles.Session;

/**
 * What a drive showed flat out that would miss a criterion at the session's pace, if it came there too. Neither waived nor
 * held against it: a take settles it that writes as much, and lasts as long, as lies between two of its kind, twice (own
 * rule). Whether a drive counts its bytes or the clock is not known, so both must be. Immutable.
 *
 * @param kind what it is
 * @param worst longest pause or falter in ms, or lowest mean rate over a window in B/s
 * @param seen how many were seen, at least 1
 * @param gapBytes most bytes the run wrote between two of them, or before the first, or after the last; 0 while reading
 * @param gapS longest time of the run likewise, in s; infinite where nothing short of the whole session settles it
 * @param awaitedBytes what was still to be written when the last fill ended, until the drive had been without one for as many
 *     bytes as it was before the first of its kind or between two; nothing for one that goes on to the end
 */
public record Threat(Kind kind, double worst, int seen, long gapBytes, double gapS, long awaitedBytes) {

    /** So often what lies between two of its kind must be written at pace. */
    static final int TIMES = 2;

    /** What a drive shows. */
    public enum Kind {
        /** A pause, while it was filled. */
        PAUSE,
        /** Several long writes in a row, none of them such a pause, while it was filled. */
        FALTER,
        /** A window in which it was slower than the session needs, while it was filled. */
        SLOW,
        /** A pause, while what was filled was read back. */
        READ_PAUSE
    }

    /**
     * Length of the take at the session's pace that settles it, in s: the session's whole length settles what such a take may be
     * expected to meet.
     */
    public double settledAfterS(Session session) {
        double byBytes = TIMES * (double) gapBytes / session.bytesPerSecond();
        double awaited = (double) awaitedBytes / session.bytesPerSecond();
        return Math.max(awaited, Math.min((double) session.lengthS(), Math.max(byBytes, TIMES * gapS)));
    }
}

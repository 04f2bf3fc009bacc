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
 * @param costly how many of them would cost audio whenever they came, for they are longer than what the buffer holds beside a chunk; 0 for those
 *     of a slowness that goes on to the end, which do not come by chance. If there are such while reading, with those while filling
 * @param flatS how long it was watched for them flat out, in s
 */
public record Threat(
        Kind kind, double worst, int seen, long gapBytes, double gapS, long awaitedBytes, int costly, double flatS) {

    /** None that would cost audio in a take is told from chance if chance alone does it no more often. */
    private static final double LEVEL = 0.05;

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
        return Math.max(
                Math.max(awaited, unlikelyAfterS()),
                Math.min((double) session.lengthS(), Math.max(byBytes, TIMES * gapS)));
    }

    /**
     * Length of a take in s without one that would cost audio, from which on that is no mere luck: had as many come at random moments flat out and at
     * pace alike, none would fall into it with a chance of 5 % at most.
     */
    double unlikelyAfterS() {
        return costly == 0 ? 0 : flatS * (Math.pow(LEVEL, -1.0 / costly) - 1);
    }

    /** The chance that a show meets one that costs audio, if they come at random and none did in a take of so many s; 0…1. */
    double chance(Session session, double takeS) {
        return costly == 0 ? 0 : -Math.expm1(-costly * session.lengthS() / (flatS + takeS));
    }
}

package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;

/**
 * A take that begins on a drive still worn out by the fill before it, hot or with its fast cache full, shows the end of the
 * fill and not a show. It is not held against the drive if a rest and a take that does better follow. Stateless.
 */
public final class Exhausted {

    /** So long from its start on a take must have kept the drive too busy, in s. */
    private static final int FIRST_S = 60;

    private Exhausted() {}

    /**
     * Whether a take found the drive too slow from its first minute on, and missed a criterion by it.
     *
     * @param take right after a fill that came to its end
     */
    public static boolean is(Session session, PhaseFacts take) {
        Series series = take.series();
        if (series == null || !take.complete() || series.length() < FIRST_S) {
            return false;
        }
        long busyMs = 0;
        for (int i = 0; i < FIRST_S; i++) {
            busyMs += series.busyMs().get(i);
        }
        return busyMs * session.margins().rate() > FIRST_S * 1000.0 && misses(session, take);
    }

    private static boolean misses(Session session, PhaseFacts take) {
        return take.lostMs() > 0
                || take.peakBacklogMs() * session.margins().buffer() > session.bufferS() * 1000
                || take.busyFraction() * session.margins().rate() > 1;
    }

    /** The phases a verdict rests on: all but a take that was repeated after a rest, and its close. */
    static List<PhaseFacts> without(List<PhaseFacts> phases) {
        int repeated = repeated(phases);
        List<PhaseFacts> judged = new ArrayList<>(phases);
        if (repeated >= 0) {
            judged.remove(repeated);
            if (judged.get(repeated).kind() == PhaseKind.CLOSE) {
                judged.remove(repeated);
            }
        }
        return judged;
    }

    /** What is said of a take that was repeated; empty if none was. */
    static String note(List<PhaseFacts> phases) {
        int repeated = repeated(phases);
        if (repeated < 0) {
            return "";
        }
        PhaseFacts take = phases.get(repeated);
        String did = take.lostMs() > 0
                ? "lost " + Units.ms(take.lostMs()) + " of audio"
                : "was busy " + Units.percent(take.busyFraction()) + " of the time";
        return "Right after it was filled flat out the drive " + did
                + ", as the fill had worn it out; after a rest it was asked again, and that is what counts. Do not record on it"
                + " right after copying much to it.";
    }

    /** The first of two takes after the fill, -1 if there are not two. */
    private static int repeated(List<PhaseFacts> phases) {
        int first = -1;
        boolean filled = false;
        for (int i = 0; i < phases.size(); i++) {
            filled |= phases.get(i).kind() == PhaseKind.FILL;
            if (filled && phases.get(i).kind() == PhaseKind.TAKE) {
                if (first >= 0) {
                    return first;
                }
                first = i;
            }
        }
        return -1;
    }
}

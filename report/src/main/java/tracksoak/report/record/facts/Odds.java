package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The chance that a show as long as the session meets a wait longer than the recorder's buffer, from the peaks of a take.
 * Never a criterion: it is shown beside the verdict and changes nothing of it.
 *
 * @param sentence one plain sentence
 * @param refused why no chance was worked out, one sentence each; empty where it was
 * @param showS length of the show asked about, in s
 * @param bufferMs buffer asked about, in ms of audio
 * @param takeS length of the takes in which overruns were counted, in s
 * @param overruns times the backlog was above the buffer in them
 * @param countChance what the count alone allows at most: the exact Poisson bound, with 95 % confidence, on the chance of one
 *     or more in the show, 0…1
 * @param fit what the peaks say; null where they say nothing
 */
public record Odds(
        String sentence,
        List<String> refused,
        double showS,
        double bufferMs,
        double takeS,
        int overruns,
        double countChance,
        @Nullable Fit fit) {

    /** Most points of the curve, and most peaks listed. */
    public static final int MOST_LISTED = 60;

    public Odds {
        refused = List.copyOf(refused);
    }

    /**
     * Peaks over a threshold and the law fitted to them.
     *
     * @param thresholdMs peaks above this count, in ms of audio
     * @param watchedS length of the take the peaks are of, in s
     * @param gapS seconds at or below the threshold that part two peaks
     * @param peaks how many
     * @param perHour peaks an hour
     * @param shape ξ of the generalised Pareto law
     * @param scaleMs its σ, in ms
     * @param lawChance chance of peaks at least so far from the law if they follow it, 0…1
     * @param steadyChance smallest of the chances, made fit to be compared together, that nothing changed meanwhile, 0…1
     * @param chance chance of a wait above the buffer in the show, 0…1
     * @param leastChance lower end of the 95 % interval
     * @param mostChance upper end
     * @param curve backlog that is passed once in so many s, rising
     * @param highest the highest peaks seen, falling
     */
    public record Fit(
            double thresholdMs,
            double watchedS,
            int gapS,
            int peaks,
            double perHour,
            double shape,
            double scaleMs,
            double lawChance,
            double steadyChance,
            double chance,
            double leastChance,
            double mostChance,
            List<Level> curve,
            List<Seen> highest) {

        public Fit {
            curve = List.copyOf(curve);
            highest = List.copyOf(highest);
        }
    }

    /**
     * A point of the curve.
     *
     * @param everyS once in so many s on average
     * @param ms backlog, in ms of audio
     * @param leastMs lower end of the 95 % interval
     * @param mostMs upper end
     */
    public record Level(double everyS, double ms, double leastMs, double mostMs) {}

    /**
     * A peak.
     *
     * @param everyS one as high or higher was seen once in so many s
     * @param ms backlog, in ms of audio
     */
    public record Seen(double everyS, double ms) {}
}

package tracksoak.report.history;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A drive that has lost more than half of its own best speed is slow, whatever the session asks. More than twice the
 * latency of its peers is what FAST'16 calls a slow drive (0.2 % of disk time, 0.6 % of SSD time); here a drive's own best
 * run stands in for its peers. The floor decides; without a fill the mean service time of the takes.
 *
 * @param figure by which
 * @param now of the latest run, in the figure's unit
 * @param best of all runs that can be compared, in the figure's unit
 * @param bestOn the day of it
 * @param slow whether it is slow
 */
public record Slowness(Figure figure, double now, double best, String bestOn, boolean slow) {

    /** So many times slower than its best is slow. */
    public static final double FACTOR = 2;

    static Optional<Slowness> of(Past latest, List<Past> comparable) {
        Slowness floor = by(Figure.FLOOR, latest, comparable);
        Slowness found = floor != null ? floor : by(Figure.SERVICE_TIME, latest, comparable);
        return Optional.ofNullable(found);
    }

    private static @Nullable Slowness by(Figure figure, Past latest, List<Past> comparable) {
        Double now = latest.values().get(figure);
        Past best = null;
        double bestValue = 0;
        for (Past past : comparable) {
            Double value = past.values().get(figure);
            if (value != null
                    && value > 0
                    && (best == null || (figure.lessIsWorse() ? value > bestValue : value < bestValue))) {
                best = past;
                bestValue = value;
            }
        }
        if (now == null || best == null) {
            return null;
        }
        boolean slow = figure.lessIsWorse() ? now * FACTOR < bestValue : now > FACTOR * bestValue;
        return new Slowness(figure, now, bestValue, best.date(), slow);
    }

    /** One plain sentence. */
    public String sentence() {
        if (!slow) {
            return "It is not slow against its own best.";
        }
        return "This drive is slow, whatever the session asks: its " + figure.words() + " is " + figure.show(now)
                + (figure.lessIsWorse() ? ", less than half of its own best of " : ", more than twice its own best of ")
                + figure.show(best) + " on " + bestOn + ".";
    }
}

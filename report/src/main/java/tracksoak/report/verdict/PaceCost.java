package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;

/**
 * What the session's pace costs a drive: flushes, changes of file, ways from track to track that flat out it does not go. A drive that
 * the pace keeps as busy as so many bytes flat out would, and slows down to fewer, does not carry it, however far those are above the demand
 * (own rule). Told by the takes before the fill; without one the demand is all that is known. Pure; any thread.
 */
final class PaceCost {

    private final double demand;
    private final double busy;
    private final double firstRate;

    private PaceCost(double demand, double busy, double firstRate) {
        this.demand = demand;
        this.busy = busy;
        this.firstRate = firstRate;
    }

    /** @param phases of a run, in order */
    static PaceCost of(Session session, List<PhaseFacts> phases) {
        double busy = 0;
        for (PhaseFacts phase : phases) {
            if (phase.kind() == PhaseKind.TAKE && phase.seconds() > 0) {
                busy = Math.max(busy, phase.busyFraction() - Blame.hostMs(phase) / 1000 / phase.seconds());
            }
            if (phase.kind() == PhaseKind.FILL) {
                List<Window> windows = windows(phase);
                return new PaceCost(
                        session.bytesPerSecond(),
                        busy,
                        windows.isEmpty() ? 0 : windows.get(0).bytesPerSecond());
            }
        }
        return new PaceCost(session.bytesPerSecond(), busy, 0);
    }

    /**
     * The rate flat out in B/s that keeps the drive as busy as the pace does, where a fill is as fast as it mostly was: at least the demand.
     * Where that is slower than at the beginning, near which the take was, its bytes take as much longer.
     */
    double bytesPerSecond(PhaseFacts fill) {
        double[] rates = windows(fill).stream()
                .mapToDouble(Window::bytesPerSecond)
                .sorted()
                .toArray();
        if (rates.length == 0 || firstRate <= 0) {
            return demand;
        }
        double usual = rates[rates.length / 2];
        double longer = usual > 0 ? Math.max(0, demand / usual - demand / firstRate) : 0;
        return Math.max(demand, usual * (busy + longer));
    }

    /**
     * A part of a fill as long as a slow window.
     *
     * @param bytes written in it
     * @param bytesPerSecond its mean rate without the computer's own delay
     */
    record Window(double bytes, double bytesPerSecond) {}

    /** The windows of a fill, one behind the other; what is left at its end is none. */
    static List<Window> windows(PhaseFacts fill) {
        Series series = fill.series();
        int window = fill.fill() == null ? 0 : (int) Math.round(fill.fill().floorWindowS());
        if (series == null || window < 1) {
            return List.of();
        }
        List<Window> windows = new ArrayList<>();
        int seconds = Math.min(series.length(), (int) fill.seconds());
        for (int from = 0; from + window <= seconds; from += window) {
            double bytes = 0;
            double workS = 0;
            for (int second = from; second < from + window; second++) {
                bytes += 1024.0 * series.kib().get(second);
                workS += 1 - Threats.lateS(series, second);
            }
            windows.add(new Window(bytes, bytes / Math.max(1e-3, workS)));
        }
        return windows;
    }
}

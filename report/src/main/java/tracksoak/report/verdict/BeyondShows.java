package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;

/**
 * Whether a run itself brought a drive to where no second show begins: a cache that holds two shows, with a rest between them, and empties so
 * slowly that the same rest after the fills was too short for it (own rule). Pure; any thread.
 */
final class BeyondShows {

    /** A show, and one before it that was deleted. */
    private static final int SHOWS = 2;

    /** What counts as a fall, as for a cliff. */
    private static final double MOST_LEFT = 0.8;

    private static final double MOST_MORE = 1.5;

    private static final int MINUTE_S = 60;

    private BeyondShows() {}

    /**
     * Whether the last fill ended slow, the take behind it was slow, without a pause, where it fell behind most, and what the run wrote before it was
     * slow, and in that take until then, is as much as two shows write.
     *
     * @param phases of a run, in order
     * @param phase the take that is asked about, or its close; nothing is said of any other
     */
    static boolean began(Session session, List<PhaseFacts> phases, PhaseFacts phase) {
        if (phase.kind() != PhaseKind.TAKE && phase.kind() != PhaseKind.CLOSE) {
            return false;
        }
        List<PhaseFacts> takes = new ArrayList<>();
        List<Double> rates = new ArrayList<>();
        List<Double> before = new ArrayList<>();
        double written = 0;
        for (PhaseFacts each : phases.subList(0, phases.indexOf(phase) + 1)) {
            if (each.kind() == PhaseKind.FILL) {
                double at = written;
                for (PaceCost.Window window : PaceCost.windows(each)) {
                    before.add(at);
                    rates.add(window.bytesPerSecond());
                    at += window.bytes();
                }
                written += each.bytes();
            } else if (each.kind() == PhaseKind.TAKE) {
                takes.add(each);
                written += each.bytes();
            }
        }
        if (takes.isEmpty() || rates.isEmpty()) {
            return false;
        }
        PhaseFacts take = takes.get(takes.size() - 1);
        double slow = rates.get(rates.size() - 1) / MOST_LEFT;
        double fast = IntStream.range(0, rates.size())
                .filter(i -> rates.get(i) <= slow)
                .mapToDouble(before::get)
                .min()
                .orElse(0);
        double until = Math.min(1, take.peakBacklogAtS() / Math.max(1, take.seconds()));
        return fast + until * take.bytes() >= SHOWS * (double) session.bytesPerSecond() * session.lengthS()
                && take.stalls().stream().allMatch(stall -> stall.ms() <= Threats.pauseLimitMs(session))
                && (takes.size() > 1 ? slowed(takes.get(0), take) : likeTheEnd(take, rates.get(rates.size() - 1)));
    }

    /** Whether a KiB took longer than in the middle one of the seconds of the first minute at pace. */
    private static boolean slowed(PhaseFacts firstTake, PhaseFacts take) {
        int atS = (int) take.peakBacklogAtS();
        double[] usual = costs(firstTake.series(), 0, MINUTE_S);
        double[] then = costs(take.series(), Math.max(0, atS - 1), atS + 1);
        return usual.length > 0 && then.length > 0 && usual[usual.length / 2] < MOST_LEFT * then[then.length - 1];
    }

    /** Without a take before the fill: whether it took about as long as at the end of the fill, neither shorter nor half as long again. */
    private static boolean likeTheEnd(PhaseFacts take, double endBytesPerSecond) {
        int atS = (int) take.peakBacklogAtS();
        double[] then = costs(take.series(), Math.max(0, atS - 1), atS + 1);
        double ended = 1024 * 1000 / endBytesPerSecond;
        return then.length > 0
                && then[then.length - 1] >= MOST_LEFT * ended
                && then[then.length - 1] <= MOST_MORE * ended;
    }

    /** Time that a KiB took, in ms, in each of the seconds in which any was written, sorted. */
    private static double[] costs(@Nullable Series series, int fromS, int untilS) {
        return series == null
                ? new double[0]
                : IntStream.range(fromS, Math.min(series.length(), untilS))
                        .filter(second -> series.kib().get(second) > 0)
                        .mapToDouble(second -> series.busyMs().get(second)
                                / (double) series.kib().get(second))
                        .sorted()
                        .toArray();
    }
}

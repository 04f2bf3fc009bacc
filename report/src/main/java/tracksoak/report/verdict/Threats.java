package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StartFacts;

/** Finds in the phases of a run what the session's own pace must settle. Pure functions of session and facts; any thread. */
public final class Threats {

    private Threats() {}

    /**
     * What the fill and the reading back of it threaten a session with; empty without a fill. What the computer itself was
     * late is taken off.
     *
     * @param phases of a run, in order; those after the first take that follows the fill are not looked at
     */
    public static List<Threat> of(Session session, List<PhaseFacts> phases) {
        List<Threat> found = new ArrayList<>();
        long before = 0;
        boolean filled = false;
        for (PhaseFacts phase : phases) {
            if (phase.kind() == PhaseKind.FILL) {
                filled = true;
                pauses(session, phase, before).ifPresent(found::add);
                slow(session, phase, before).ifPresent(found::add);
            } else if (filled && phase.kind() == PhaseKind.READ_BACK) {
                readPauses(session, phase).ifPresent(found::add);
            } else if (filled && phase.kind() == PhaseKind.TAKE) {
                break;
            }
            before += phase.kind() == PhaseKind.TAKE || phase.kind() == PhaseKind.FILL ? phase.bytes() : 0;
        }
        return found;
    }

    /**
     * Whether nothing that follows can make it a PASS: a take lost audio, or the fill was slower on average than the session
     * writes, which no pace carries.
     */
    public static boolean decided(Session session, List<PhaseFacts> phases) {
        boolean lost = phases.stream().anyMatch(phase -> phase.kind() == PhaseKind.TAKE && phase.lostMs() > 0);
        // the second fill is judged for threats alone
        PhaseFacts fill = phases.stream()
                .filter(phase -> phase.kind() == PhaseKind.FILL)
                .findFirst()
                .orElse(null);
        FillFacts found = fill == null ? null : fill.fill();
        return lost
                || (fill != null
                        && found != null
                        && FlatRate.of(fill, found, (double) session.bytesPerSecond() * session.lengthS())
                                        .withoutHost(0)
                                < (double) session.bytesPerSecond());
    }

    /**
     * Whether the fill left a drive that is fast enough to write so slow that "record" could miss a limit for that alone: the
     * files were made in time before the fill, and would not be if they took as much longer behind it as writing did. Their time
     * is wait of the first chunks, but for the first chunk period.
     */
    public static boolean slowStart(Session session, List<PhaseFacts> phases) {
        double filesMs = 0;
        double fastest = 0;
        double last = 0;
        for (PhaseFacts phase : phases) {
            StartFacts start = phase.start();
            FillFacts fill = phase.fill();
            if (phase.kind() == PhaseKind.TAKE && start != null) {
                filesMs = Math.max(filesMs, start.filesMs());
            }
            if (phase.kind() == PhaseKind.FILL && fill != null) {
                for (double rate : fill.roundsBytesPerSecond()) {
                    fastest = Math.max(fastest, rate);
                    last = rate;
                }
            }
        }
        double limitMs = pauseLimitMs(session) + session.longestChunkMs();
        return filesMs <= limitMs && filesMs * fastest > limitMs * last;
    }

    /** Length of the take that settles them all, in s; 0 for none. */
    public static double settledAfterS(Session session, List<Threat> threats) {
        return threats.stream()
                .mapToDouble(threat -> threat.settledAfterS(session))
                .max()
                .orElse(0);
    }

    /**
     * The shortest pause that would miss a criterion at the session's pace, in ms: one longer than the stall allowed, or than
     * what the buffer holds with its margin beside the chunk that is being made.
     */
    public static double pauseLimitMs(Session session) {
        double spare = session.bufferS() * 1000 / session.margins().buffer() - session.longestChunkMs();
        return Math.max(
                (double) session.stallLimitMs(),
                Math.min((double) session.margins().longestStallMs(), spare));
    }

    private static Optional<Threat> pauses(Session session, PhaseFacts fill, long before) {
        double limit = pauseLimitMs(session);
        Written written = new Written(fill);
        Events events = new Events(written, before, ofTheWholeDrive(fill));
        double worst = 0;
        List<Stall> stalls = fill.stalls().stream()
                .sorted(Comparator.comparingDouble(Stall::atS))
                .toList();
        for (Stall stall : stalls) {
            double ms = stall.ms() - stall.hostMs();
            if (ms > limit && !Blame.slept(fill.hostDelays())) {
                worst = Math.max(worst, ms);
                events.add(stall.atS());
            }
        }
        return events.threat(Threat.Kind.PAUSE, worst, fill.seconds());
    }

    private static Optional<Threat> slow(Session session, PhaseFacts fill, long before) {
        Series series = fill.series();
        FillFacts found = fill.fill();
        int window = found == null ? 0 : (int) Math.round(found.floorWindowS());
        int seconds = Written.wholeSeconds(fill);
        double need = session.margins().rate() * session.bytesPerSecond();
        if (found != null && series == null && found.floorBytesPerSecond() < need) {
            return Optional.of(new Threat(
                    Threat.Kind.SLOW, found.floorBytesPerSecond(), 1, before + fill.bytes(), fill.seconds(), 0));
        }
        if (series == null || window < 1 || seconds < window) {
            return Optional.empty();
        }
        Written written = new Written(fill);
        double[] rates = new double[seconds];
        double hostS = 0;
        double worst = Double.MAX_VALUE;
        for (int i = 0; i < seconds; i++) {
            hostS += lateS(series, i);
            if (i >= window) {
                hostS -= lateS(series, i - window);
            }
            rates[i] = i < window - 1
                    ? Double.MAX_VALUE
                    : written.between(i + 1 - window, i + 1) / Math.max(1e-3, window - hostS);
            worst = Math.min(worst, rates[i]);
        }
        Events events = new Events(written, before, ofTheWholeDrive(fill));
        IntPredicate isSlow = i -> rates[i] < need;
        int lastSlow = -window - 1;
        for (int i = 0; i < seconds; i++) {
            if (isSlow.test(i)) {
                if (i - lastSlow > window) {
                    events.add(i + 1.0 - window);
                }
                lastSlow = i;
                events.goesOnUntil(i + 1.0);
            }
        }
        // how long it would have stayed slow was not seen, so nothing short of the whole session settles it
        return events.threat(
                Threat.Kind.SLOW, worst, isSlow.test(seconds - 1) ? Double.POSITIVE_INFINITY : fill.seconds());
    }

    private static Optional<Threat> readPauses(Session session, PhaseFacts readBack) {
        Series series = readBack.series();
        if (series == null || Blame.slept(readBack.hostDelays())) {
            return Optional.empty();
        }
        double limit = pauseLimitMs(session);
        Events events = new Events(null, 0, false);
        double worst = 0;
        for (int i = 0; i < series.length(); i++) {
            double ms = series.maxServiceMs().get(i) - series.hostDelayMs().get(i);
            if (ms > limit) {
                worst = Math.max(worst, ms);
                events.add(Math.max(0, i - ms / 1000));
            }
        }
        return events.threat(Threat.Kind.READ_PAUSE, worst, readBack.seconds());
    }

    private static boolean ofTheWholeDrive(PhaseFacts fill) {
        FillFacts found = fill.fill();
        return found != null && found.ended() == FillFacts.Ended.FULL;
    }

    private static double lateS(Series series, int second) {
        return Math.min(1000, series.hostDelayMs().get(second)) / 1000.0;
    }

    /** Bytes written by each second of a phase. */
    private static final class Written {

        private final double[] by;

        Written(PhaseFacts phase) {
            Series series = phase.series();
            int length = series == null ? 0 : series.length();
            by = new double[length + 1];
            for (int i = 0; i < length; i++) {
                by[i + 1] =
                        by[i] + 1024.0 * Objects.requireNonNull(series).kib().get(i);
            }
        }

        /** Seconds that are whole: the end of a phase falls within its last one. */
        static int wholeSeconds(PhaseFacts phase) {
            Series series = phase.series();
            return series == null ? 0 : Math.min(series.length(), (int) phase.seconds());
        }

        double between(int from, int to) {
            return by[to] - by[from];
        }

        double at(double seconds) {
            int whole = (int) Math.max(0, Math.min(seconds, by.length - 1.0));
            double part = Math.max(0, Math.min(1, seconds - whole));
            return whole + 1 < by.length ? by[whole] + part * (by[whole + 1] - by[whole]) : by[whole];
        }
    }

    /** Moments of one kind, and the widest gap between them. */
    private static final class Events {

        private final @Nullable Written written;
        private final long before;
        private final boolean wholeDrive;
        private final List<Double> atS = new ArrayList<>();
        private double quietSinceS;
        private double quietBytes;

        Events(@Nullable Written written, long before, boolean wholeDrive) {
            this.written = written;
            this.before = before;
            this.wholeDrive = wholeDrive;
        }

        void add(double seconds) {
            atS.add(seconds);
            quietBytes = Math.max(quietBytes, bytesAt(seconds) - bytesAt(quietSinceS));
            quietSinceS = seconds;
        }

        /** The one that was added last goes on until then. */
        void goesOnUntil(double seconds) {
            quietSinceS = seconds;
        }

        Optional<Threat> threat(Threat.Kind kind, double worst, double endS) {
            if (atS.isEmpty()) {
                return Optional.empty();
            }
            double lastBytes = -before;
            double lastS = 0;
            double gapBytes = 0;
            double gapS = 0;
            for (double each : atS) {
                gapBytes = Math.max(gapBytes, bytesAt(each) - lastBytes);
                gapS = Math.max(gapS, each - lastS);
                lastBytes = bytesAt(each);
                lastS = each;
            }
            gapBytes = Math.max(gapBytes, bytesAt(endS) - lastBytes);
            gapS = Math.max(gapS, endS - lastS);
            return Optional.of(new Threat(
                    kind,
                    worst,
                    atS.size(),
                    Math.round(gapBytes),
                    gapS,
                    wholeDrive ? Math.round(Math.max(0, quietBytes - (bytesAt(endS) - bytesAt(quietSinceS)))) : 0));
        }

        private double bytesAt(double seconds) {
            return written == null ? 0 : written.at(seconds);
        }
    }
}

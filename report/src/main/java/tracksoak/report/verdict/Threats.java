package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StartFacts;

/** Finds in the phases of a run what the session's own pace must settle. Pure functions of session and facts; any thread. */
public final class Threats {

    /** What is usual at a moment of a fill is looked for so long before and behind it, in s. */
    private static final int AROUND_S = 10;

    private Threats() {}

    /**
     * What the fill, and all that was read back since, threaten a session with; empty without a fill. What the computer itself
     * was late is taken off.
     *
     * @param phases of a run, in order; of those after the first take that follows the fill only what was read back is looked at
     */
    public static List<Threat> of(Session session, List<PhaseFacts> phases) {
        Events pauses = new Events(Threat.Kind.PAUSE);
        Events falters = new Events(Threat.Kind.FALTER);
        Events slow = new Events(Threat.Kind.SLOW);
        Events readPauses = new Events(Threat.Kind.READ_PAUSE);
        double bytes = 0;
        double seconds = 0;
        double endBytes = 0;
        double endS = 0;
        boolean filled = false;
        boolean taken = false;
        PaceCost cost = PaceCost.of(session, phases);
        for (PhaseFacts phase : phases) {
            taken |= filled && phase.kind() == PhaseKind.TAKE;
            Written written = new Written(phase, bytes, seconds);
            if (phase.kind() == PhaseKind.FILL && !taken) {
                filled = true;
                double paceBytesPerSecond = cost.bytesPerSecond(phase);
                pauses(session, phase, written, pauses);
                BitSet slowSeconds = slow(session, phase, written, paceBytesPerSecond, slow);
                pauses.goOnWith(written, slowSeconds);
                falters(session, phase, written, paceBytesPerSecond, slowSeconds, falters);
            } else if (filled && phase.kind() == PhaseKind.READ_BACK) {
                readPauses(session, phase, written, readPauses);
            }
            bytes += phase.kind() == PhaseKind.TAKE || phase.kind() == PhaseKind.FILL ? phase.bytes() : 0;
            seconds += phase.seconds();
            if (!taken) {
                endBytes = bytes;
                endS = seconds;
            }
        }
        // what stops a drive while it reads and comes by chance, or by the clock, stops it while it writes
        readPauses.watchedAs(pauses);
        List<Threat> threats = new ArrayList<>();
        for (Events events : List.of(pauses, falters, slow, readPauses)) {
            events.threat(endBytes, endS).ifPresent(threats::add);
        }
        return List.copyOf(threats);
    }

    /**
     * Whether nothing that follows can make it a PASS: a take lost audio, or was busy for longer than the rate margin allows.
     * A fill decides nothing: drives are slow flat out that carry the show.
     */
    public static boolean decided(Session session, List<PhaseFacts> phases) {
        return phases.stream()
                .filter(phase -> phase.kind() == PhaseKind.TAKE)
                .anyMatch(take -> take.lostMs() > 0
                        || take.busyFraction() * session.margins().rate() > 1);
    }

    /**
     * Whether the fill left a drive so slow, though fast enough to write, that a take right behind it could miss a limit for that alone:
     * "record", as the files were made in time before the fill, and would not be if they took as much longer as writing did (their time is
     * wait of the first chunks, but for the first chunk period); or the pace, as it kept the drive busy for so long that it would be busy for too
     * long then.
     */
    public static boolean leftSlow(Session session, List<PhaseFacts> phases) {
        double filesMs = 0;
        double busy = 0;
        double fastest = 0;
        double last = 0;
        for (PhaseFacts phase : phases) {
            StartFacts start = phase.start();
            FillFacts fill = phase.fill();
            if (phase.kind() == PhaseKind.TAKE) {
                filesMs = Math.max(filesMs, start == null ? 0 : start.filesMs());
                busy = Math.max(busy, phase.busyFraction());
            }
            if (phase.kind() == PhaseKind.FILL && fill != null) {
                for (double rate : fill.roundsBytesPerSecond()) {
                    fastest = Math.max(fastest, rate);
                    last = rate;
                }
            }
        }
        double limitMs = pauseLimitMs(session) + session.longestChunkMs();
        return (filesMs <= limitMs && filesMs * fastest > limitMs * last)
                || busy * fastest * session.margins().rate() > last;
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

    /** What the buffer holds beside the chunk that is being made, in ms: a longer pause costs audio whenever it comes. */
    private static double heldMs(Session session) {
        return session.bufferS() * 1000 - session.longestChunkMs();
    }

    private static void pauses(Session session, PhaseFacts fill, Written written, Events events) {
        double heldMs = heldMs(session);
        events.flatS += fill.seconds();
        for (Stall stall : threatening(session, fill)) {
            events.costly += stall.ms() - stall.hostMs() > heldMs ? 1 : 0;
            events.worst = Math.max(events.worst, stall.ms() - stall.hostMs());
            events.add(written, stall.atS());
        }
    }

    private static List<Stall> threatening(Session session, PhaseFacts fill) {
        double limit = pauseLimitMs(session);
        return Blame.slept(fill.hostDelays())
                ? List.of()
                : fill.stalls().stream()
                        .filter(stall -> stall.ms() - stall.hostMs() > limit)
                        .sorted(Comparator.comparingDouble(Stall::atS))
                        .toList();
    }

    /**
     * Several long writes in a row do to the session what one long pause does: the time that each second lacks, as against the seconds around
     * it, makes the backlog grow that the drive would have at the session's pace. Those that are a pause or a slow window by themselves are not
     * counted again.
     */
    private static void falters(
            Session session, PhaseFacts fill, Written written, double paceBytesPerSecond, BitSet slow, Events events) {
        Series series = fill.series();
        if (series == null || Blame.slept(fill.hostDelays())) {
            return;
        }
        List<Stall> known = threatening(session, fill);
        double limitS = pauseLimitMs(session) / 1000;
        double backlogS = 0;
        boolean counted = false;
        int seconds = written.wholeSeconds();
        double[] changes = changesS(series);
        for (int i = 0; i < seconds; i++) {
            double bytes = written.in(i);
            double workS = 1 - lateS(series, i) - changes[i];
            double lackedS = starves(session, series, i, bytes, paceBytesPerSecond)
                    ? Math.max(0, workS - bytes / written.usual(i))
                    : 0;
            // where in the second it was is not known: right behind the lack of the one before, and right before that
            // of the next
            double peakS = backlogS + lackedS;
            backlogS = Math.max(lackedS, backlogS + workS - bytes / paceBytesPerSecond);
            if (peakS <= limitS) {
                counted = false;
            } else if (!slow.get(i) && !isOneOf(known, i - peakS, i + 2.0)) {
                events.worst = Math.max(events.worst, peakS * 1000);
                if (!counted) {
                    events.add(written, Math.max(0, i + 1 - peakS));
                }
                counted = true;
            }
        }
        events.toTheEnd |= counted;
    }

    /** Whether a write of that second, or one that goes on into the next, was longer than chunks may take on average. */
    private static boolean starves(
            Session session, Series series, int second, double bytes, double paceBytesPerSecond) {
        long longestMs = series.maxServiceMs().get(second);
        if (second + 1 < series.length()) {
            longestMs = Math.max(longestMs, series.maxServiceMs().get(second + 1));
        }
        return bytes == 0 || longestMs > 1000.0 * session.writers() * session.chunkBytes() / paceBytesPerSecond;
    }

    private static boolean isOneOf(List<Stall> stalls, double fromS, double untilS) {
        return stalls.stream().anyMatch(stall -> stall.atS() < untilS && stall.atS() + stall.ms() / 1000 > fromS);
    }

    /** @return the seconds of slow windows */
    private static BitSet slow(
            Session session, PhaseFacts fill, Written written, double paceBytesPerSecond, Events events) {
        BitSet slow = new BitSet();
        Series series = fill.series();
        FillFacts found = fill.fill();
        if (found == null) {
            return slow;
        }
        int window = (int) Math.round(found.floorWindowS());
        int seconds = written.wholeSeconds();
        double need = session.margins().rate() * paceBytesPerSecond;
        if (series == null && found.floorBytesPerSecond() < need) {
            events.worst = Math.min(events.worst, found.floorBytesPerSecond());
            events.add(written, 0);
            events.goesOn(written, fill.seconds());
        }
        if (series == null || window < 1 || seconds < window) {
            return slow;
        }
        double hostS = 0;
        double[] changes = changesS(series);
        int lastSlow = -window - 1;
        for (int i = 0; i < seconds; i++) {
            hostS += lateS(series, i) + changes[i];
            if (i >= window) {
                hostS -= lateS(series, i - window) + changes[i - window];
            }
            double rate = i < window - 1
                    ? Double.MAX_VALUE
                    : (written.at(i + 1.0) - written.at(i + 1.0 - window)) / Math.max(1e-3, window - hostS);
            if (rate < need) {
                if (i - lastSlow > window) {
                    events.add(written, i + 1.0 - window);
                }
                lastSlow = i;
                slow.set(i + 1 - window, i + 1);
                events.worst = Math.min(events.worst, rate);
                events.goesOn(written, i + 1.0);
            }
        }
        double whole = (double) session.bytesPerSecond() * session.lengthS();
        if (lastSlow == seconds - 1) {
            events.toTheEnd = true;
        }
        if (FlatRate.of(fill, found, whole).withoutHost(0) < session.margins().rate() * session.bytesPerSecond()) {
            events.wholeSession = true;
        }
        return slow;
    }

    private static void readPauses(Session session, PhaseFacts readBack, Written written, Events events) {
        Series series = readBack.series();
        if (series == null || Blame.slept(readBack.hostDelays())) {
            return;
        }
        double limit = pauseLimitMs(session);
        double heldMs = heldMs(session);
        events.flatS += readBack.seconds();
        for (int i = 0; i < series.length(); i++) {
            double ms = series.maxServiceMs().get(i) - series.hostDelayMs().get(i);
            if (ms > limit) {
                events.costly += ms > heldMs ? 1 : 0;
                events.worst = Math.max(events.worst, ms);
                events.add(written, Math.max(0, i - ms / 1000));
            }
        }
    }

    /** Time of each second that went into changes of file, in s; a change is booked where it ended. */
    private static double[] changesS(Series series) {
        double[] changes = new double[series.length()];
        IntColumn flushMs = series.flushMs();
        double leftS = 0;
        for (int i = changes.length - 1; i >= 0 && flushMs != null; i--) {
            leftS += flushMs.get(i) / 1000.0;
            changes[i] = Math.min(1 - lateS(series, i), leftS);
            leftS -= changes[i];
        }
        return changes;
    }

    static double lateS(Series series, int second) {
        return Math.min(1000, series.hostDelayMs().get(second)) / 1000.0;
    }

    /** Where a phase stands in all that the run wrote and in its time. */
    private static final class Written {

        private final PhaseFacts phase;
        private final double before;
        private final double beforeS;
        private final double[] by;

        /**
         * @param before bytes written before the phase
         * @param beforeS time before it in s
         */
        Written(PhaseFacts phase, double before, double beforeS) {
            this.phase = phase;
            this.before = before;
            this.beforeS = beforeS;
            Series series = phase.kind() == PhaseKind.FILL ? phase.series() : null;
            int length = series == null ? 0 : series.length();
            by = new double[length + 1];
            for (int i = 0; i < length; i++) {
                by[i + 1] =
                        by[i] + 1024.0 * Objects.requireNonNull(series).kib().get(i);
            }
        }

        /** Seconds that are whole: the end of a phase falls within its last one. */
        int wholeSeconds() {
            return Math.min(by.length - 1, (int) phase.seconds());
        }

        /** Bytes written in a second of the phase. */
        double in(int second) {
            return by[second + 1] - by[second];
        }

        /** The middle one of the seconds around a second, in bytes; at least 1. */
        double usual(int second) {
            int from = Math.max(0, second - AROUND_S);
            int until = Math.min(wholeSeconds(), second + AROUND_S + 1);
            double[] around =
                    IntStream.range(from, until).mapToDouble(this::in).sorted().toArray();
            return Math.max(1, around[around.length / 2]);
        }

        /** Bytes written so many s into the phase, by all of the run. */
        double at(double seconds) {
            int whole = (int) Math.max(0, Math.min(seconds, by.length - 1.0));
            double part = Math.max(0, Math.min(1, seconds - whole));
            return before + (whole + 1 < by.length ? by[whole] + part * (by[whole + 1] - by[whole]) : by[whole]);
        }
    }

    /** Moments of one kind in the whole run, and the widest gaps between them. */
    private static final class Events {

        private final Threat.Kind kind;
        private int seen;
        private double lastBytes;
        private double lastS;
        private double beforeLastS;
        private double gapBytes;
        private double gapS;
        private double quietSinceBytes;
        private double quietBytes;
        private double worst;
        private int costly;
        private double flatS;
        private boolean toTheEnd;
        private boolean wholeSession;

        Events(Threat.Kind kind) {
            this.kind = kind;
            worst = kind == Threat.Kind.SLOW ? Double.MAX_VALUE : 0;
        }

        /** One more, so many s into a phase. */
        void add(Written written, double seconds) {
            seen++;
            toTheEnd = false;
            double bytes = written.at(seconds);
            double atS = written.beforeS + seconds;
            gapBytes = Math.max(gapBytes, bytes - lastBytes);
            gapS = Math.max(gapS, atS - lastS);
            quietBytes = Math.max(quietBytes, bytes - quietSinceBytes);
            lastBytes = bytes;
            beforeLastS = lastS;
            lastS = atS;
            quietSinceBytes = bytes;
        }

        /** The one that was added last goes on until then. */
        void goesOn(Written written, double seconds) {
            quietSinceBytes = written.at(seconds);
        }

        /** Others of them would have been one of these as well, and none came in the time that those were watched for. */
        void watchedAs(Events others) {
            if (costly > 0) {
                costly += others.toTheEnd ? 0 : others.costly;
                flatS += others.flatS;
            }
        }

        /** They go on to the end of a fill where the last two of them lie in a slowness that does: they are what it is made of. */
        void goOnWith(Written written, BitSet slow) {
            int end = written.wholeSeconds() - 1;
            boolean slowToTheEnd = end >= 0 && slow.get(end);
            toTheEnd |= slowToTheEnd && beforeLastS >= written.beforeS + slow.previousClearBit(end) + 1;
        }

        Optional<Threat> threat(double endBytes, double endS) {
            if (seen == 0) {
                return Optional.empty();
            }
            gapBytes = Math.max(gapBytes, endBytes - lastBytes);
            gapS = Math.max(gapS, endS - lastS);
            // how long it would have stayed slow was not seen
            boolean open = toTheEnd || wholeSession;
            double awaited = toTheEnd || kind == Threat.Kind.READ_PAUSE
                    ? 0
                    : Math.max(0, quietBytes - (endBytes - quietSinceBytes));
            return Optional.of(new Threat(
                    kind,
                    worst,
                    seen,
                    kind == Threat.Kind.READ_PAUSE ? 0 : Math.round(gapBytes),
                    open ? Double.POSITIVE_INFINITY : gapS,
                    Math.round(awaited),
                    toTheEnd ? 0 : costly,
                    flatS));
        }
    }
}

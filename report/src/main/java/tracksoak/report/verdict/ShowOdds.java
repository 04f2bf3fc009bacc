package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.stats.LawTest;
import tracksoak.report.stats.PeakOdds;
import tracksoak.report.stats.PeakOrder;
import tracksoak.report.stats.Peaks;
import tracksoak.report.stats.Peaks.Peak;
import tracksoak.report.stats.RareEvents;
import tracksoak.report.stats.TailFit;
import tracksoak.report.stats.TailLaw;

/**
 * The odds for the show: peaks over a threshold in the last take, extrapolated to the buffer and the show's length, or why
 * the data do not allow it. A PASS is not given against them. Takes before the fill and after it are never put together. A
 * pure function of session and facts; the seed of its samples is fixed. Any thread.
 */
public final class ShowOdds {

    static final int LEAST_PEAKS = 40;
    private static final int GOOD_PEAKS = 50;
    private static final double LEVEL = 0.05;
    private static final double CONFIDENCE = 0.95;
    private static final double[] SHARES = {0.90, 0.92, 0.94, 0.95, 0.96, 0.97, 0.98, 0.985, 0.99, 0.9925, 0.995};

    /** The record keeps whole ms; with less between the peaks it would be the resolution that is fitted. */
    private static final double LEAST_SPAN_MS = 10;

    private static final long SEED = 20_011;
    private static final int POINTS_PER_DECADE = 8;

    private final Session session;
    private final PhaseFacts take;
    private final double runBufferMs;
    private final double bufferMs;
    private final double showS;
    private final int gapS;

    /** Of one take, made with a buffer of {@code runBufferMs}. */
    private ShowOdds(Session session, PhaseFacts take, double runBufferMs) {
        this.session = session;
        this.take = take;
        this.runBufferMs = runBufferMs;
        this.bufferMs = session.bufferS() * 1000;
        this.showS = (double) session.lengthS();
        this.gapS = gapS(session);
    }

    /** The record with the odds for the show beside its verdict; as it is where it has no verdict. */
    public static RunRecord beside(RunRecord run) {
        Verdict verdict = run.verdict();
        return verdict == null ? run : run.withVerdict(verdict.with(of(run.session(), run)));
    }

    /** The odds for a show as long as the session; null where the session or the run has no takes to learn from. */
    public static @Nullable Odds of(Session session, RunRecord run) {
        JudgedRun evidence = new JudgedRun(session, run);
        if (session.kind() != SessionKind.RECORDING || run.state() == RunState.RUNNING || evidence.takes.isEmpty()) {
            return null;
        }
        // the last take: the drive as full and as used as the run left it
        PhaseFacts last = evidence.takes.get(evidence.takes.size() - 1);
        ShowOdds odds = new ShowOdds(session, last, evidence.runBufferMs());
        String refusal = refusal(run, evidence, last);
        return refusal == null ? odds.from() : odds.refused(refusal);
    }

    /**
     * Whether a take of the session itself has told whether the show's chance lies within the risk accepted, or need not, as
     * its peaks allow no law.
     *
     * @param take as far as it has come
     * @param must whether peaks that allow no law yet are waited for
     */
    public static boolean told(Session session, PhaseFacts take, boolean must) {
        if (take.series() == null || spoilt(take)) {
            return true;
        }
        Odds.Fit fit =
                new ShowOdds(session, take, session.bufferS() * 1000).from().fit();
        return fit == null ? !must : fit.chance() <= session.risk() || fit.leastChance() > session.risk();
    }

    /** Why no PASS is given against the odds, as a sentence; null where they allow it or nothing is known of them. */
    static @Nullable String against(JudgedRun run) {
        Odds odds = run.takes.isEmpty() ? null : of(run.session, run.record);
        Odds.Fit fit = odds == null ? null : odds.fit();
        return odds == null || fit == null || fit.chance() <= run.session.risk()
                ? null
                : "It carried " + Units.seconds(fit.watchedS()) + ", but " + OddsWords.about(fit.chance())
                        + " of shows of "
                        + Units.seconds(odds.showS()) + " would lose audio (95 %: "
                        + OddsWords.interval(fit.leastChance(), fit.mostChance()) + "); "
                        + OddsWords.chance(run.session.risk())
                        + " is accepted.";
    }

    private static boolean spoilt(PhaseFacts take) {
        return Blame.slept(take.hostDelays()) || Doubts.overloaded(take);
    }

    private static @Nullable String refusal(RunRecord run, JudgedRun evidence, PhaseFacts last) {
        if (evidence.carry != Carry.SAME) {
            return "The run used different tracks than this session has.";
        }
        if (run.state() != RunState.COMPLETE || last.fault() != null || !last.complete()) {
            return "The run did not come to its end.";
        }
        if (last.series() == null) {
            return "The record has no figures second by second.";
        }
        if (evidence.bufferMs() > evidence.runBufferMs() && evidence.lostAudio()) {
            return "The run lost audio with a smaller buffer, so how far it would have fallen behind is not known.";
        }
        if (spoilt(last)) {
            return "The computer itself was late or slept during the take.";
        }
        if (Blame.countersDisagree(last) || Blame.foreignWrites(last, evidence.ioMode())) {
            return "By the device's own counters the take's figures are not this drive's alone.";
        }
        return null;
    }

    private Odds from() {
        int[] waits = Waits.of(take);
        int[] sorted = waits.clone();
        Arrays.sort(sorted);
        int threshold = threshold(waits, sorted);
        int most = sorted.length == 0 ? 0 : sorted[sorted.length - 1];
        List<Peak> peaks = Peaks.above(waits, threshold, gapS);
        if (most - threshold < LEAST_SPAN_MS) {
            // the peak is the buffer margin's to tell: what the computer itself was late is off here
            int usual = sorted.length == 0 ? 0 : sorted[sorted.length / 2];
            return refused("The delays were all alike: but for the computer's own the recorder was "
                    + Units.ms(usual)
                    + " behind in half of all seconds, and in none by more than " + Units.ms((double) most - usual)
                    + " on top of that.");
        }
        if (peaks.size() < LEAST_PEAKS) {
            return refused("There were too few delays: " + peaks.size() + " that stand out, and " + LEAST_PEAKS
                    + " are needed. A longer take has more.");
        }
        if (threshold + 0.5 >= bufferMs) {
            return refused("The backlog is above the buffer so often that odds mean nothing.");
        }
        double lawChance = lawChance(peaks, threshold + 0.5);
        if (lawChance <= LEVEL) {
            return refused("The delays are too irregular to extrapolate: they are of several kinds.");
        }
        return judged(peaks, threshold + 0.5, lawChance, waits.length);
    }

    /** The highest of the thresholds tried above which peaks enough are left, else the lowest. */
    private int threshold(int[] waits, int[] sorted) {
        int threshold = 0;
        for (int i = SHARES.length - 1; i >= 0 && sorted.length > 0; i--) {
            threshold = sorted[(int) (SHARES[i] * (sorted.length - 1))];
            if (Peaks.above(waits, threshold, gapS).size() >= GOOD_PEAKS) {
                break;
            }
        }
        return threshold;
    }

    private Odds judged(List<Peak> peaks, double threshold, double lawChance, int seconds) {
        PeakOrder order = PeakOrder.of(peaks, seconds).together();
        double steady = Math.min(order.sizes(), Math.min(order.times(), order.bunches()));
        if (steady <= LEVEL) {
            String what = steady == order.sizes()
                    ? "the delays grow or shrink"
                    : steady == order.times() ? "they come more or less often" : "they come in bunches";
            return refused("The drive does not behave the same all along: " + what
                    + " in the course of the take, so the show may be another matter.");
        }
        double[] excesses =
                peaks.stream().mapToDouble(peak -> peak.value() - threshold).toArray();
        PeakOdds odds = new PeakOdds(threshold, TailFit.of(excesses, cap(threshold)), seconds);
        PeakOdds.Range chance = odds.chance(bufferMs, showS);
        TailLaw law = odds.law();
        Odds.Fit fit = new Odds.Fit(
                threshold,
                seconds,
                gapS,
                peaks.size(),
                digits(odds.rate() * 3600),
                digits(law.shape()),
                digits(law.scale()),
                digits(lawChance),
                digits(steady),
                digits(chance.best()),
                digits(chance.least()),
                digits(chance.most()),
                curve(odds, seconds),
                highest(peaks, seconds));
        return odds(
                "The chance that a show of " + Units.seconds(showS)
                        + " meets a wait longer than the buffer of " + Units.seconds(session.bufferS()) + " is "
                        + OddsWords.about(chance.best()) + " (95 %: "
                        + OddsWords.interval(chance.least(), chance.most())
                        + "), if the drive goes on as in the take. " + counted(),
                List.of(),
                fit);
    }

    private Odds refused(String why) {
        return odds("The test cannot say how likely a dropout is. " + why + " " + counted(), List.of(why), null);
    }

    private Odds odds(String sentence, List<String> refused, Odds.@Nullable Fit fit) {
        return new Odds(sentence, refused, showS, bufferMs, take.seconds(), overruns(), digits(countChance()), fit);
    }

    /** The bound by count alone, which asks nothing of the peaks but that they come at random. */
    private String counted() {
        int overruns = overruns();
        double chance = countChance();
        String seen = overruns == 0 ? "no wait was" : overruns == 1 ? "1 wait was" : overruns + " waits were";
        return "Simply counting: " + seen + " longer than the buffer in " + Units.seconds(take.seconds())
                + (chance >= 0.995
                        ? ", which rules out nothing for a show of this length."
                        : ", so with 95 % confidence the chance is no more than " + OddsWords.chance(chance) + ".");
    }

    private double countChance() {
        double expected = RareEvents.countBound(overruns(), CONFIDENCE) * showS / take.seconds();
        return -Math.expm1(-expected);
    }

    private int overruns() {
        return bufferMs == runBufferMs || take.series() == null
                ? take.overruns().size()
                : Peaks.above(Waits.of(take), (int) bufferMs, gapS).size();
    }

    /** Where the run dropped audio it cannot be seen how far it would have fallen behind. */
    private double cap(double threshold) {
        return Math.floor(runBufferMs) - 0.5 - threshold;
    }

    private double lawChance(List<Peak> peaks, double threshold) {
        double cap = cap(threshold);
        double[] excesses =
                peaks.stream().mapToDouble(peak -> peak.value() - threshold).toArray();
        if (Arrays.stream(excesses).filter(x -> x < cap).count() < 2) {
            return 0;
        }
        return LawTest.chance(excesses, cap, x -> Math.min(cap, Math.floor(x) + 0.5), SEED);
    }

    private List<Odds.Level> curve(PeakOdds odds, int seconds) {
        double first = 2 / odds.rate();
        double last = Math.max(10.0 * seconds, 5 * showS);
        int steps = Math.min(Odds.MOST_LISTED - 1, (int) Math.ceil(Math.log10(last / first) * POINTS_PER_DECADE));
        List<Odds.Level> curve = new ArrayList<>();
        for (int i = 0; i <= steps; i++) {
            double every = first * Math.pow(last / first, (double) i / steps);
            PeakOdds.Range level = odds.level(every);
            curve.add(new Odds.Level(
                    digits(every), bounded(level.best()), bounded(level.least()), bounded(level.most())));
        }
        return curve;
    }

    private static List<Odds.Seen> highest(List<Peak> peaks, int seconds) {
        int[] values = peaks.stream().mapToInt(Peak::value).sorted().toArray();
        List<Odds.Seen> highest = new ArrayList<>();
        for (int i = 0; i < Math.min(values.length, Odds.MOST_LISTED); i++) {
            highest.add(new Odds.Seen(digits(seconds / (i + 0.5)), values[values.length - 1 - i]));
        }
        return highest;
    }

    /** Two peaks closer than two chunk periods, or 2 s, may be one that went on unseen. */
    private static int gapS(Session session) {
        double slowest = session.streams().stream()
                .mapToDouble(stream -> (double) stream.chunkBytes() / stream.bytesPerSecond())
                .max()
                .orElse(1);
        return (int) Math.max(2, Math.ceil(2 * slowest));
    }

    /** A level too far off to mean anything is as good as any other. */
    private double bounded(double ms) {
        return digits(Math.min(ms, 1e9));
    }

    /** Four digits: no more is known, and the last ones differ between computers. */
    private static double digits(double value) {
        return Double.parseDouble(String.format(Locale.ROOT, "%.3e", value));
    }
}

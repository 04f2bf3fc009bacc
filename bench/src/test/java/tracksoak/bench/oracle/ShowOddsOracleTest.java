package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Jitter;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.stats.RareEvents;
import tracksoak.report.verdict.ShowOdds;

/**
 * The odds for the show against the truth: the true chance of a kind of drive is counted over many simulated shows, then
 * takes on other drives of the kind are asked for it. The 95 % interval must hold the truth as often as it says, but for
 * what the count of drives leaves open.
 */
class ShowOddsOracleTest {

    private static final long SEED = 20_261_000L;
    private static final long MS = 1_000_000;
    private static final long SECOND = 1_000_000_000;
    private static final double TAKE_S = 1800;
    private static final int SHOW_S = 3600;

    /** Longer than any stall, so that nothing is lost and the peaks are whole. */
    private static final double BUFFER_S = 120;

    private static final double[] BUFFERS_S = {1.5, 2.5, 4};

    /**
     * A kind of drive that stops at random.
     *
     * @param gapMs mean time between two stalls, in ms
     * @param leastMs shortest stall in ms
     * @param tail exponent of the Pareto law of their lengths
     */
    private record Kind(String name, long gapMs, long leastMs, double tail) {

        DriveModel drive(long seed) {
            List<Behaviour> traits = List.of(
                    new ConstantRate(40_000_000, 90_000_000, 150_000),
                    new Jitter(120),
                    new RandomStalls(gapMs * MS, leastMs * MS, 100 * SECOND, tail));
            return DriveModel.of(name, "trial", seed, 64_000_000_000L, traits.toArray(Behaviour[]::new));
        }
    }

    private static final List<Kind> KINDS = List.of(
            new Kind("many-short", 4_000, 120, 3),
            new Kind("seldom-long", 15_000, 300, 2.5),
            new Kind("heavy", 8_000, 100, 1.8),
            new Kind("light", 5_000, 400, 5));

    @Test
    void theIntervalHoldsTheTruth() {
        compare(Integer.getInteger("odds.shows", 60), Integer.getInteger("odds.takes", 12));
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void theIntervalHoldsTheTruthAllNight() {
        compare(2_000, 500);
    }

    /** One buffer per take, so that no two intervals come from the same peaks. */
    private static void compare(int shows, int takes) {
        int held = 0;
        int answered = 0;
        int told = 0;
        Map<String, Integer> refused = new TreeMap<>();
        for (Kind kind : KINDS) {
            int[] overruns = overruns(kind, shows);
            int[] holds = new int[BUFFERS_S.length];
            int[] said = new int[BUFFERS_S.length];
            for (int take = 0; take < takes; take++) {
                int which = take % BUFFERS_S.length;
                RunRecord run = WholeRun.of(session(BUFFER_S), kind.drive(SEED + 1_000_000 + take), takeOf(TAKE_S));
                Odds odds = Objects.requireNonNull(ShowOdds.of(session(BUFFERS_S[which]), run));
                Odds.Fit fit = odds.fit();
                if (fit == null) {
                    refused.merge(odds.refused().get(0), 1, Integer::sum);
                    continue;
                }
                said[which]++;
                holds[which] += holds(fit, overruns[which], shows) ? 1 : 0;
                told += fit.mostChance() < 0.9 || fit.leastChance() > 0.1 ? 1 : 0;
            }
            for (int i = 0; i < BUFFERS_S.length; i++) {
                held += holds[i];
                answered += said[i];
                System.out.printf(
                        Locale.ROOT,
                        "odds: %-12s buffer %.1f s: true chance %.4f, held by %d of %d intervals%n",
                        kind.name(),
                        BUFFERS_S[i],
                        (double) overruns[i] / shows,
                        holds[i],
                        said[i]);
            }
        }
        System.out.printf(
                Locale.ROOT,
                "odds: seed %d, %d shows and %d takes of each kind: held by %d of %d intervals (%.1f %%); %d takes refused: %s%n",
                SEED,
                shows,
                takes,
                held,
                answered,
                100.0 * held / answered,
                takes * KINDS.size() - answered,
                refused);
        assertThat(held).isGreaterThanOrEqualTo(leastOf(answered));
        // an answer that is always given and always wide would hold every truth
        assertThat(answered).isGreaterThan(takes * KINDS.size() / 2);
        assertThat(told).isGreaterThan(answered / 2);
    }

    /** Whether the interval holds the truth, as far as the shows tell it (exact binomial, 99 %). */
    private static boolean holds(Odds.Fit fit, int overruns, int shows) {
        double most = RareEvents.probabilityBound(overruns, shows, 0.995);
        double least = 1 - RareEvents.probabilityBound(shows - overruns, shows, 0.995);
        return fit.leastChance() <= most && fit.mostChance() >= least;
    }

    /** So many of {@code count} at least, or 95 % each has a chance of 1 in 1,000. */
    private static int leastOf(int count) {
        double sum = 0;
        double term = Math.pow(0.95, count);
        int missed = 0;
        while (sum + term < 0.999) {
            sum += term;
            term *= (count - missed) / (missed + 1.0) * 0.05 / 0.95;
            missed++;
        }
        return count - missed;
    }

    private static int[] overruns(Kind kind, int shows) {
        int[] overruns = new int[BUFFERS_S.length];
        for (int show = 0; show < shows; show++) {
            RunRecord run = WholeRun.of(session(BUFFER_S), kind.drive(SEED + show), takeOf(SHOW_S));
            double peakMs = run.phases().get(0).peakBacklogMs();
            for (int i = 0; i < BUFFERS_S.length; i++) {
                overruns[i] += peakMs > 1000 * BUFFERS_S[i] ? 1 : 0;
            }
        }
        return overruns;
    }

    private static Plan takeOf(double seconds) {
        return Plan.climbTake(seconds);
    }

    private static Session session(double bufferS) {
        return Sessions.of(
                List.of(new TrackGroup(2, 48_000, SampleFormat.PCM_24)),
                FileLayout.FILE_PER_TRACK,
                32 << 10,
                Arrival.BURST,
                0,
                bufferS,
                250);
    }
}

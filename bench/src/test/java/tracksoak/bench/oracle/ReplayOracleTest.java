package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.replay.Replay;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.Verdict.Outcome;

/**
 * The replay against the truth: a seeded drive is run for one session and replayed for another, and what it does in that other
 * is worked out by {@link BruteCheck}, from the drive's own behaviours and apart from the recorder, its books and the judge.
 * An estimate never says PASS where a limit is missed, nor that a backlog fits which does not; and of the estimates that say
 * PASS or FAIL at least 95 % agree with the truth where that is decided by 10 % or more.
 */
class ReplayOracleTest {

    private static final long FIRST_SEED = 41_260_000L;
    private static final double EDGE = 0.1;
    private static final double LEAST_AGREEING = 0.95;
    /** An estimate that always says NO VERDICT would agree with everything. */
    private static final double LEAST_ANSWERED = 0.7;

    /**
     * Seeds that once promised. After a take: a stall that began unseen between two bursts, several unlucky writes in a
     * row, a run that lost audio and so never heated the drive, two pauses that fell together, a bus shared by the clock over
     * pauses by the byte. After a fill: a stall that
     * only the fill met (twice), a fill too short to heat the drive, two within the rounding of the record, a stall that
     * only the close met, and flushes that a drive always behind never showed.
     */
    private static final Map<Shape, List<Long>> ONCE_PROMISED = Map.of(
            Shape.TAKE, List.of(41263904L, 41263808L, 42267586L, 42264461L, 44264770L),
            Shape.FILLED, List.of(42271834L, 42262332L, 42265201L, 42275381L, 42268739L, 43267563L, 43275671L));

    /** What is run: a take alone, or a short take, a fill until the rate is steady, and a take. */
    private enum Shape {
        TAKE,
        FILLED;

        Session session(Trial trial) {
            return this == TAKE ? trial.session() : Sessions.shortSession(trial.session());
        }

        Plan plan(Trial trial) {
            return this == TAKE
                    ? Plan.named(PlanName.LINE_CHECK)
                            .takeAfter(trial.seconds())
                            .shortened()
                            .plan()
                    : Plan.named(PlanName.SOUND_CHECK)
                            .takeBefore(trial.seconds() / 2)
                            .fillCap(120)
                            .takeAfter(trial.seconds())
                            .round(4)
                            .shortened()
                            .plan();
        }
    }

    /** 200 and 80 seeds in each build, 20,000 others of each shape at night. */
    @ParameterizedTest
    @EnumSource
    void neverPromisesAndMostlyAgrees(Shape shape) {
        compare(shape, FIRST_SEED, Integer.getInteger("replay.count", shape == Shape.TAKE ? 200 : 80));
    }

    @ParameterizedTest
    @EnumSource
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void neverPromisesAndMostlyAgreesAllNight(Shape shape) {
        compare(
                shape,
                Long.getLong("replay.first", FIRST_SEED + 1_000_000),
                Integer.getInteger("replay.night", 20_000));
    }

    @Test
    void doesNotPromiseAgainWhatItOncePromised() {
        List<String> failing = new ArrayList<>();
        List<String> promised = new ArrayList<>();
        ONCE_PROMISED.forEach((shape, seeds) -> seeds.forEach(seed -> {
            Trial trial = Trial.of(seed);
            Session made = shape.session(trial);
            Session other = other(made, new SplittableRandom(seed ^ 0x5eedL));
            Plan plan = shape.plan(trial);
            if (BruteCheck.of(other, trial.drive(), plan).worstShare() > 1) {
                failing.add(shape + " " + seed);
                if (Replay.of(other, WholeRun.of(made, trial.drive(), plan)).outcome() == Outcome.PASS) {
                    promised.add(shape + " " + seed);
                }
            }
        }));
        assertThat(promised).isEmpty();
        assertThat(failing).hasSizeGreaterThanOrEqualTo(6);
    }

    /**
     * One pair.
     *
     * @param worst largest share of a limit that was used in truth, above 1 is a miss
     * @param backlog the same of the backlog alone
     * @param backlogMet whether the cautious ways say that the backlog fits
     */
    private record Case(
            long seed,
            Outcome said,
            double worst,
            double backlog,
            @Nullable Boolean backlogMet,
            String told) {
        boolean clear() {
            return worst >= 1 + EDGE || worst <= 1 - EDGE;
        }

        boolean answered() {
            return said != Outcome.NO_VERDICT;
        }

        Outcome truth() {
            return worst > 1 ? Outcome.FAIL : Outcome.PASS;
        }

        boolean promised() {
            return truth() == Outcome.FAIL && (said == Outcome.PASS || (backlog > 1 && isTrue(backlogMet)));
        }

        private static boolean isTrue(@Nullable Boolean told) {
            return Boolean.TRUE.equals(told);
        }
    }

    private static void compare(Shape shape, long firstSeed, int count) {
        List<Case> cases = new ArrayList<>();
        Map<String, Integer> refused = new TreeMap<>();
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.of(seed);
            Session made = shape.session(trial);
            Session other = other(made, new SplittableRandom(seed ^ 0x5eedL));
            Plan plan = shape.plan(trial);
            Estimate estimate = Replay.of(other, WholeRun.of(made, trial.drive(), plan));
            if (!estimate.refused().isEmpty()) {
                refused.merge(estimate.refused().get(0).replaceAll("[0-9.]+", "…"), 1, Integer::sum);
                continue;
            }
            BruteCheck truth = BruteCheck.of(other, trial.drive(), plan);
            cases.add(new Case(
                    seed,
                    estimate.outcome(),
                    truth.worstShare(),
                    truth.backlogShare(),
                    backlogMet(estimate),
                    trial.drive().behaviours() + " " + estimate.figures()));
        }
        print(shape, firstSeed, count, cases, refused);
        assertThat(cases).hasSizeGreaterThan(count / 2);
        assertThat(cases.stream().filter(Case::promised).map(Case::seed))
                .as("promised what is missed")
                .isEmpty();
        List<Case> clear = cases.stream().filter(Case::clear).toList();
        List<Case> answered = clear.stream().filter(Case::answered).toList();
        long agreeing =
                answered.stream().filter(each -> each.said == each.truth()).count();
        assertThat(agreeing / (double) answered.size()).isGreaterThanOrEqualTo(LEAST_AGREEING);
        assertThat(answered.size() / (double) clear.size()).isGreaterThanOrEqualTo(LEAST_ANSWERED);
    }

    private static @Nullable Boolean backlogMet(Estimate estimate) {
        return estimate.figures().stream()
                .filter(figure -> figure.id().equals("buffer-margin"))
                .findFirst()
                .map(Estimate.Figure::cautiousMet)
                .orElse(null);
    }

    private static void print(Shape shape, long firstSeed, int count, List<Case> cases, Map<String, Integer> refused) {
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                "replay of %s: seeds %d to %d, %d replayed%n%-12s %9s %9s   (decided by 10 %% or more / all)%n",
                shape,
                firstSeed,
                firstSeed + count - 1,
                cases.size(),
                "",
                "carries",
                "misses"));
        for (Outcome said : Outcome.values()) {
            text.append(String.format(Locale.ROOT, "%-12s", said));
            for (Outcome truth : List.of(Outcome.PASS, Outcome.FAIL)) {
                long all = cases.stream()
                        .filter(each -> each.said == said && each.truth() == truth)
                        .count();
                long clear = cases.stream()
                        .filter(each -> each.said == said && each.truth() == truth && each.clear())
                        .count();
                text.append(String.format(Locale.ROOT, " %4d/%-4d", clear, all));
            }
            text.append(System.lineSeparator());
        }
        refused.forEach((why, times) ->
                text.append("  refused ").append(times).append(": ").append(why).append("\n"));
        cases.stream()
                .filter(each -> each.answered() && each.said != each.truth())
                .sorted(Comparator.comparing((Case each) -> !each.promised())
                        .thenComparing(each -> -Math.abs(Math.log(each.worst))))
                .limit(8)
                .forEach(each -> text.append(String.format(
                        Locale.ROOT,
                        "  seed %d said %s, in truth %s, worst share %.3f, %s%n",
                        each.seed,
                        each.said,
                        each.truth(),
                        each.worst,
                        each.told)));
        System.out.print(text);
    }

    /** A session the run's measurement covers: fewer or slower tracks, or another buffer. */
    private static Session other(Session made, SplittableRandom random) {
        List<TrackGroup> groups = new ArrayList<>();
        int what = random.nextInt(4);
        for (TrackGroup group : made.groups()) {
            int tracks = what == 0 ? group.tracks() : 1 + random.nextInt(group.tracks());
            boolean slower = what == 3;
            groups.add(new TrackGroup(
                    tracks,
                    slower && group.sampleRateHz() > 48_000 ? group.sampleRateHz() / 2 : group.sampleRateHz(),
                    slower ? SampleFormat.PCM_16 : group.format()));
        }
        double longestChunkS = groups.stream()
                .mapToDouble(group -> made.chunkBytes() / (double) group.bytesPerSecondPerTrack())
                .max()
                .orElseThrow();
        double buffer = made.bufferS() * (what == 2 ? 1 : 0.4 + 2 * random.nextDouble());
        return made.but()
                .name("other")
                .title("Another")
                .about("")
                .groups(groups)
                .mix(List.of())
                .writers(1)
                .bufferS(Math.max(buffer, longestChunkS * 1.05))
                .bufferAssumed(false)
                .build();
    }
}

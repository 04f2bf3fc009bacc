package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.phase.run.Plan;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict.Outcome;

/**
 * Whole runs of a take, close and read-back against the brute-force queue: the record must carry the same figures, and the
 * verdict must be the right one in every case that a limit decides by 5 % or more.
 */
class VerdictOracleTest {

    private static final long FIRST_SEED = 30_260_000L;
    private static final double EDGE = 0.05;

    /** 500 seeds in each build, 50,000 others at night. */
    @Test
    void recordAndVerdictAgreeWithTheBruteForceQueue() throws IOException {
        compare(FIRST_SEED, 500);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void recordAndVerdictAgreeAllNight() throws IOException {
        compare(FIRST_SEED + 1_000_000, 50_000);
    }

    private static void compare(long firstSeed, int count) throws IOException {
        Map<Outcome, Integer> seen = new EnumMap<>(Outcome.class);
        int edge = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.of(seed);
            BruteQueue queue = new BruteQueue(trial.session(), trial.seconds());
            DriveServer server =
                    new DriveServer(trial.drive(), trial.session().streams().size()).synced();
            queue.makesFiles(server.nowNs());
            queue.play(server);
            Expected expected = Expected.of(queue, trial.seconds());
            queue.close(server);
            RunRecord record = WholeRun.of(
                    trial.session(),
                    trial.drive(),
                    Plan.named(PlanName.LINE_CHECK)
                            .takeAfter(trial.seconds())
                            .shortened()
                            .plan());
            assertSame("seed " + seed + ": ", expected, queue.closeMs, record);
            Outcome outcome = Objects.requireNonNull(record.verdict()).outcome();
            seen.merge(outcome, 1, Integer::sum);
            double worst = expected.worstShare(trial.session(), queue.closeMs);
            if (worst >= 1 + EDGE) {
                assertThat(outcome)
                        .as("seed " + seed + ": missed by 5 % or more")
                        .isEqualTo(Outcome.FAIL);
            } else if (worst <= 1 - EDGE) {
                assertThat(outcome)
                        .as("seed " + seed + ": all met by 5 % or more")
                        .isEqualTo(Outcome.PASS);
            } else {
                edge++;
            }
        }
        System.out.printf(
                Locale.ROOT,
                "verdicts: seeds %d to %d, %s, %d decided by less than 5 %%%n",
                firstSeed,
                firstSeed + count - 1,
                seen,
                edge);
        assertThat(seen).containsOnlyKeys(Outcome.PASS, Outcome.FAIL);
        assertThat(seen.values()).allSatisfy(each -> assertThat(each).isGreaterThan(count / 10));
        assertThat(edge).isLessThan(count / 5);
    }

    private static void assertSame(String seed, Expected expected, double closeMs, RunRecord record) {
        PhaseFacts take = record.phases().get(0);
        assertThat(take.lostMs()).as(seed + "ms lost").isEqualTo(expected.lostMs());
        assertThat(take.peakBacklogMs()).as(seed + "peak backlog").isEqualTo(expected.peakMs());
        assertThat(take.stallCount()).as(seed + "stalls").isEqualTo(expected.stalls());
        assertThat(take.overruns())
                .as(seed + "overruns")
                .hasSize(Math.min(expected.overruns(), PhaseFacts.MOST_LISTED));
        assertThat(take.busyFraction()).as(seed + "busy").isCloseTo(expected.busy(), within(1e-12));
        CloseFacts close = Objects.requireNonNull(record.phases().get(1).close());
        assertThat(close.totalMs()).as(seed + "close").isCloseTo(closeMs, within(1e-6));
        assertThat(record.phases().get(1).lostMs()).isZero();
        assertThat(Objects.requireNonNull(record.phases().get(2).readBack()).bad())
                .as(seed + "bad blocks")
                .isZero();
    }
}

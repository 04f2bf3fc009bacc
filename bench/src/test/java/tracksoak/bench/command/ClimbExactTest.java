package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.job.TargetClimbRunner;
import tracksoak.bench.oracle.BruteCheck;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbResult.How;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.json.RecordFormats;

/**
 * Climbs on seeded drives against the exact answer, defined in docs/method.md: what every number of tracks asks of a drive as
 * new is worked out by {@link BruteCheck}, from the drive's own behaviours and apart from the recorder, its books and the
 * judge. A drive on which more tracks are never easier has one answer, and the climb
 * must give it; where chance gives a drive several edges, the climb must stand on one.
 */
class ClimbExactTest {

    private static final long FIRST_SEED = 41_260_000L;
    private static final HostFacts HOST = new HostFacts("test", "test", null, 1, null, "test");
    private static final String ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    private static final double HANG_LIMIT_S = 1000;
    private static final long RESERVE = 256L << 20;

    /** 50 seeds in each build, 4,000 others at night. */
    @Test
    void theAnswerIsTheExactOne() throws IOException {
        climbAll(FIRST_SEED, 50);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void theAnswerIsTheExactOneAllNight() throws IOException {
        climbAll(FIRST_SEED + 1_000_000, 4_000);
    }

    private static void climbAll(long firstSeed, int count) throws IOException {
        int monotone = 0;
        int inside = 0;
        int stepped = 0;
        int open = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            ClimbTrial trial = ClimbTrial.of(seed);
            Ladder ladder = Ladder.tracks(trial.session(), trial.most());
            boolean[] carried = new boolean[ladder.size() + 1];
            boolean[] kept = new boolean[ladder.size() + 1];
            for (int rung = 1; rung <= ladder.size(); rung++) {
                BruteCheck truth = BruteCheck.of(
                        ladder.session(rung), trial.drive(), trial.check(), probes(trial, ladder.session(rung)));
                carried[rung] = truth.worstShare() <= 1;
                kept[rung] = truth.kept();
            }
            ClimbRecord record = climb(trial, ladder);
            ClimbResult result = Objects.requireNonNull(record.result());
            String told = "seed " + seed + ", " + result.sentence() + " " + record.steps();
            if (isOpen(result)) {
                assertThat(record.steps())
                        .as(told)
                        .anyMatch(step ->
                                step.carried() == null && step.sentence().contains(" is not settled: "));
                open++;
                continue;
            }
            int margin = stands(told, result.withMargin(), carried);
            int loss = stands(told, Objects.requireNonNull(result.beforeLoss()), kept);
            assertThat(loss).as(told).isGreaterThanOrEqualTo(margin);
            monotone += isMonotone(carried) && isMonotone(kept) ? 1 : 0;
            inside += margin > 0 && margin < ladder.size() ? 1 : 0;
            stepped += record.steps().stream()
                                    .filter(step -> step.kind() == tracksoak.report.record.facts.ClimbStep.Kind.CHECK)
                                    .count()
                            > 4
                    ? 1
                    : 0;
        }
        System.out.printf(
                Locale.ROOT,
                "climbs: seeds %d to %d, %d with one edge each, %d answers inside the ladder, %d stepped by sound-checks, %d open%n",
                firstSeed,
                firstSeed + count - 1,
                monotone,
                inside,
                stepped,
                open);
        assertThat(open).isLessThanOrEqualTo(count / 10);
        assertThat(monotone).isGreaterThan(count / 2);
        assertThat(inside).isGreaterThan(count / 2);
        assertThat(stepped).isGreaterThan(count / 20);
    }

    /** As "Probes" in docs/method.md has it: a take is longer than the room between two, and all take a 64th of it at most. */
    private static int probes(ClimbTrial trial, Session session) throws IOException {
        DriveModel model = trial.drive();
        long room = model.plug(new VirtualClock(0), 1).usableBytes() - (64L << 20);
        double seconds = Math.max(trial.check().takeBeforeS(), trial.check().takeAfterS());
        double wanted = 1.5 * room / (seconds * session.bytesPerSecond());
        long most = room / 64 / model.clusterBytes();
        return (int) Math.min(most, (long) Math.min(32_768, Math.max(1024, wanted)));
    }

    /** What comes by more bytes than these short sessions write is left open by every sound-check, and so by the climb. */
    private static boolean isOpen(ClimbResult result) {
        return result.withMargin().how() == How.UNSURE
                || Objects.requireNonNull(result.beforeLoss()).how() == How.UNSURE;
    }

    /** Asserts that the answer stands on an edge and returns it, 0 for none; on a monotone drive there is only one. */
    private static int stands(String told, ClimbResult.Edge edge, boolean[] holds) {
        int most = holds.length - 1;
        Integer at = edge.at();
        int answer = at == null ? 0 : at;
        assertThat(edge.how()).as(told).isEqualTo(answer == 0 ? How.NONE : How.CONFIRMED);
        if (answer > 0) {
            assertThat(holds[answer])
                    .as(told + ": the sound-check at the answer")
                    .isTrue();
        }
        if (answer < most) {
            assertThat(holds[answer + 1])
                    .as(told + ": the sound-check above it")
                    .isFalse();
        }
        if (isMonotone(holds)) {
            int exact = 0;
            while (exact < most && holds[exact + 1]) {
                exact++;
            }
            assertThat(answer).as(told).isEqualTo(exact);
        }
        return answer;
    }

    private static boolean isMonotone(boolean[] holds) {
        boolean failed = false;
        for (int rung = 1; rung < holds.length; rung++) {
            if (failed && holds[rung]) {
                return false;
            }
            failed |= !holds[rung];
        }
        return true;
    }

    private static ClimbRecord climb(ClimbTrial trial, Ladder ladder) {
        SimulatedTarget target = new SimulatedTarget(trial.drive(), () -> 1_795_000_000_000L, HANG_LIMIT_S);
        ClimbOrder order = new ClimbOrder(
                ID,
                "tracksoak test",
                7,
                trial.session(),
                ladder,
                "More was not tried.",
                trial.shortTakeS(),
                10,
                trial.check(),
                true,
                true,
                target.facts(),
                HOST);
        TargetClimbRunner runner = new TargetClimbRunner(
                target,
                () -> new SimulatedTarget(trial.drive(), () -> 1_795_000_000_000L, HANG_LIMIT_S),
                new TargetClimbRunner.Terms(7, HANG_LIMIT_S, RESERVE, 1 << 30, HOST),
                new DeafToClimbs());
        ClimbRecord record = new Climb(order, runner, target.epoch(), new DeafToClimbs()).call();
        assertThat(RecordFormats.CLIMB.read(
                        RecordFormats.CLIMB.write(record).getBytes(java.nio.charset.StandardCharsets.UTF_8)))
                .isEqualTo(record);
        return record;
    }
}

package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.ClimbRunner;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.job.TargetClimbRunner;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SharedBus;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict.Outcome;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.verdict.Judge;

/**
 * Which open looks of a climb are made again. The drive gives 400 kB/s, and half of that for 15 s of each minute, so that a
 * fill is never steady; in its 600 s it writes 210 MB (arithmetic). One track of 144 kB/s writes 173 MB in 20 min, 518 MB in an
 * hour.
 */
class ClimbRepeatsTest {

    private static final long SECOND = 1_000_000_000L;
    private static final HostFacts HOST = new HostFacts("test", "test", null, 1, null, "test");
    private static final String ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    private static final double HANG_LIMIT_S = 1000;
    private static final long RESERVE = 256L << 20;

    private static final DriveModel NEVER_STEADY = DriveModel.of(
            "never-steady",
            "made up",
            7,
            1L << 37,
            new ConstantRate(400_000, 4_000_000, 100_000),
            new SharedBus(5 * SECOND, 60 * SECOND, 15 * SECOND, 500));

    private static Session session(long lengthS) {
        return Session.builder()
                .name("rehearsal")
                .title("A rehearsal")
                .kind(SessionKind.RECORDING)
                .groups(List.of(new TrackGroup(1, 48_000, SampleFormat.PCM_24)))
                .lengthS(lengthS)
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(65_536)
                .arrival(Arrival.BURST)
                .writers(1)
                .flushS(0)
                .bufferS(4)
                .bufferAssumed(false)
                .fileLimitBytes(1L << 40)
                .fileSystems(List.of("exfat"))
                .stallLimitMs(1000)
                .margins(new Margins(1, 1, 1, 2, 2000, 30_000))
                .build();
    }

    /** A climb from one track to one, whose first {@code asleep} sound-checks the computer sleeps through in part. */
    private static ClimbRecord climb(long lengthS, int asleep) {
        Session session = session(lengthS);
        SimulatedTarget target = target();
        ClimbOrder order = new ClimbOrder(
                ID,
                "tracksoak test",
                7,
                session,
                Ladder.tracks(session, 1),
                "More was not tried.",
                60,
                1200,
                Plan.named(PlanName.SOUND_CHECK)
                        .takeBefore(60)
                        .fillCap(600)
                        .takeAfter(60)
                        .plan(),
                false,
                true,
                target.facts(),
                HOST);
        ClimbRunner runner = new Sleepy(
                new TargetClimbRunner(
                        target,
                        ClimbRepeatsTest::target,
                        new TargetClimbRunner.Terms(7, HANG_LIMIT_S, RESERVE, 1 << 30, HOST),
                        new DeafToClimbs()),
                asleep);
        return new Climb(order, runner, target.epoch(), new DeafToClimbs()).call();
    }

    private static SimulatedTarget target() {
        return new SimulatedTarget(NEVER_STEADY, () -> 1_795_000_000_000L, HANG_LIMIT_S);
    }

    private static long checks(ClimbRecord record) {
        return record.steps().stream()
                .filter(step -> step.kind() == ClimbStep.Kind.CHECK)
                .count();
    }

    @Test
    void aCappedFillIsAskedForOnceAndTheResultSaysWhyTheNumberIsOpen() {
        ClimbRecord record = climb(3600, 0);
        ClimbResult result = Objects.requireNonNull(record.result());
        assertThat(checks(record)).isEqualTo(1);
        assertThat(result.outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(result.withMargin().how()).isEqualTo(ClimbResult.How.UNSURE);
        assertThat(result.reasons())
                .singleElement()
                .asString()
                .startsWith(
                        "1 track had one sound-check only, as another would leave it open too: The fill stopped after ")
                .contains("raise the cap of the fill");
    }

    @Test
    void whatASleepingComputerLeftOpenIsAskedAgain() {
        ClimbRecord once = climb(1200, 1);
        assertThat(checks(once)).isEqualTo(2);
        assertThat(Objects.requireNonNull(once.result()).withMargin().at()).isEqualTo(1);

        ClimbRecord always = climb(1200, 99);
        assertThat(checks(always)).isEqualTo(3);
        assertThat(Objects.requireNonNull(always.result()).reasons())
                .singleElement()
                .asString()
                .startsWith("One number was tried three times and gave no answer. ")
                .contains("slept");
    }

    /** Asleep and capped: only once the computer was awake is it certain that the cap alone left it open. */
    @Test
    void aCapIsCertainOnlyWithTheComputerAwake() {
        assertThat(checks(climb(3600, 1))).isEqualTo(2);
    }

    /** Puts a sleep of 2 s into every phase of the first sound-checks. */
    private static final class Sleepy implements ClimbRunner {
        private final ClimbRunner inner;
        private int left;

        Sleepy(ClimbRunner inner, int times) {
            this.inner = inner;
            this.left = times;
        }

        @Override
        public RunRecord run(Purpose purpose, int value, Session session, Plan plan) {
            RunRecord record = inner.run(purpose, value, session, plan);
            if (purpose != Purpose.CHECK || left-- <= 0) {
                return record;
            }
            String json = RecordJson.write(record);
            String asleep = json.replaceAll("\"suspendedMs\"\\s*:\\s*0(\\.0)?", "\"suspendedMs\":2000.0");
            assertThat(asleep).isNotEqualTo(json);
            RunRecord spoilt = RecordJson.read(asleep.getBytes(StandardCharsets.UTF_8));
            return spoilt.withVerdict(Judge.judge(spoilt));
        }

        @Override
        public boolean renews() {
            return inner.renews();
        }
    }
}

package tracksoak.bench.phase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FakeCapacity;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.ProbeFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;

/** A drive that has less room than it claims is found in a line-check, however much is missing; an honest one is not. */
class ProbesTest {

    private static final long GB = 1_000_000_000L;
    private static final DriveModel HONEST =
            SimulatedDrives.named("steady-stick").orElseThrow();

    @ParameterizedTest
    @EnumSource(FakeCapacity.Past.class)
    void aFakeOfAnySizeIsFoundInALineCheck(FakeCapacity.Past past) {
        long claimed = HONEST.capacityBytes();
        List<String> passed = new ArrayList<>();
        for (long real = 2 * GB; real < claimed - GB; real += claimed / 40 + 7 * 4096) {
            List<Behaviour> behaviours = new ArrayList<>(HONEST.behaviours());
            behaviours.add(new FakeCapacity(real / 4096 * 4096, past));
            RunRecord record = lineCheck(
                    DriveModel.of("fake", "less than it claims", real, claimed, behaviours.toArray(Behaviour[]::new)));
            if (outcome(record) != Verdict.Outcome.FAIL) {
                passed.add(past + " " + real);
            }
        }
        assertThat(passed).isEmpty();
    }

    @Test
    void anHonestDrivePassesAndSaysHowFarItWasLookedAt() {
        RunRecord record = lineCheck(HONEST);
        assertThat(outcome(record)).isEqualTo(Verdict.Outcome.PASS);
        ProbeFacts probes = Objects.requireNonNull(record.method().probes());
        assertThat(probes.placed()).isBetween(64L, 4096L);
        assertThat(probes.spanBytes()
                        / (double) Objects.requireNonNull(record.drive().freeBytes()))
                .isBetween(0.95, 1.0);
    }

    private static Verdict.Outcome outcome(RunRecord record) {
        return Objects.requireNonNull(record.verdict()).outcome();
    }

    private static RunRecord lineCheck(DriveModel model) {
        VirtualClock clock = new VirtualClock(1_795_000_000_000L);
        RunRequest request = new RunRequest(
                VirtualRun.ID,
                "test",
                SessionCatalog.shipped()
                        .find("trio-8")
                        .but()
                        .fileSystems(List.of(model.fileSystem()))
                        .build(),
                Plan.lineCheck(),
                7,
                30,
                256L << 20);
        return VirtualRun.of(request, model.plug(clock, 30_000_000_000L), clock);
    }
}

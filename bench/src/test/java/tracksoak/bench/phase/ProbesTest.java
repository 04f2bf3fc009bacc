package tracksoak.bench.phase;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.PassingDrive;
import tracksoak.bench.drive.io.PassingFile;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FakeCapacity;
import tracksoak.bench.simulated.SimulatedDrive;
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
        assertThat(passed(past, claimed, 2 * GB, claimed / 40 + 7 * 4096)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(FakeCapacity.Past.class)
    void soIsOneThatClaimsFourTerabytes(FakeCapacity.Past past) {
        assertThat(passed(past, 4_000 * GB, 200 * GB, 4_000 * GB / 11 + 77_777 * 4096L))
                .isEmpty();
    }

    private static List<String> passed(FakeCapacity.Past past, long claimed, long least, long step) {
        List<String> passed = new ArrayList<>();
        for (long real = least; real < claimed - GB; real += step) {
            List<Behaviour> behaviours = new ArrayList<>(HONEST.behaviours());
            behaviours.add(new FakeCapacity(real / 4096 * 4096, past));
            RunRecord record = lineCheck(
                    DriveModel.of("fake", "less than it claims", real, claimed, behaviours.toArray(Behaviour[]::new)));
            if (outcome(record) != Verdict.Outcome.FAIL) {
                passed.add(past + " " + real + " " + outcome(record) + " "
                        + record.method().probes()
                        + Objects.requireNonNull(record.verdict()).sentence());
            }
        }
        return passed;
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

    /** On a drive so large that the room between two blocks is more than a file is given. */
    @Test
    void roomIsGivenInTurnAndTakenBack() {
        List<Long> lengths = new ArrayList<>();
        Set<String> names = new TreeSet<>();
        VirtualClock clock = new VirtualClock(1_795_000_000_000L);
        SimulatedDrive drive = HONEST.plug(clock, 30_000_000_000L);
        Drive large = new PassingDrive(drive) {
            @Override
            public Spreading spreading() {
                return Spreading.IN_TURN_BY_LENGTH;
            }

            @Override
            public long usableBytes() throws IOException {
                return Math.max(drive.usableBytes(), 1_000 * GB);
            }

            @Override
            public int roomUnitBytes() {
                return 512 << 10;
            }

            @Override
            public int spreadingUnitBytes() {
                return 512 << 10;
            }

            @Override
            public DriveFile create(String name) throws IOException {
                DriveFile made = drive.create(name);
                if (!name.contains("between")) {
                    return made;
                }
                names.add(name);
                return new PassingFile(made) {
                    @Override
                    public boolean lengthen(long bytes) {
                        lengths.add(bytes);
                        return true;
                    }
                };
            }

            @Override
            public void delete(String name) throws IOException {
                names.remove(name);
                drive.delete(name);
            }
        };
        RunRecord record = new Run(
                        request(HONEST),
                        TestTarget.onVirtualTime(large, drive.facts(), clock),
                        VirtualRun.HOST,
                        new VirtualRun.Deaf())
                .call();

        ProbeFacts probes = Objects.requireNonNull(record.method().probes());
        // a 4096th of the room in clusters of 512 KiB
        assertThat(probes.placed()).isEqualTo(465);
        assertThat(names).as("files that were to be deleted").isEmpty();
        assertThat(lengths).allMatch(length -> length <= 2L << 30);
        long taken = 0;
        for (int i = 0; i < lengths.size(); i++) {
            taken += i + 1 == lengths.size() || lengths.get(i + 1) <= lengths.get(i) ? lengths.get(i) : 0;
        }
        assertThat(taken / (double) probes.spanBytes()).isBetween(0.99, 1.0);
    }

    private static Verdict.Outcome outcome(RunRecord record) {
        return Objects.requireNonNull(record.verdict()).outcome();
    }

    private static RunRecord lineCheck(DriveModel model) {
        VirtualClock clock = new VirtualClock(1_795_000_000_000L);
        return VirtualRun.of(request(model), model.plug(clock, 30_000_000_000L), clock);
    }

    private static RunRequest request(DriveModel model) {
        return new RunRequest(
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
    }
}

package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.tray.LiveState;
import tracksoak.bench.tray.RunShelf;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.profiles.base.SystemClocks;

/** Three real devices in one tray: two that carry the session and one that does not; cut short once, and gone on with. */
@NeedsRig
@Tag("program")
@Execution(ExecutionMode.CONCURRENT)
@Order(1)
class TrayOnDrivesTest {

    @TempDir
    Path host;

    private RunShelf shelf() {
        return new RunShelf(host.resolve("state").resolve("tracksoak"), SystemClocks.EPOCH);
    }

    @Test
    void verdictsAreThoseOfEachAloneWhateverHappensToTheTray() {
        try (Rig slow = Rig.of(FileSystem.EXT4, 128);
                LoopMount good = LoopMount.ext4(128);
                LoopMount other = LoopMount.ext4(128)) {
            // eight tracks at 48 kHz and 24 bit need 1,152,000 B/s
            slow.drive().set(Faults.none().rate(700_000));
            try (Program tray = Program.of(
                    host,
                    "qualify",
                    "--tray",
                    "G-1=" + good.path(),
                    "S-1=" + slow.path(),
                    other.path().toString(),
                    "--session=trio-8",
                    "--plan=line-check",
                    "--take=8s",
                    "--idle=0s",
                    "--file-systems=ext4",
                    "--reserve=16MiB",
                    "--length=60s")) {
                assertThat(Host.await(60_000, () -> working() == 1))
                        .as(tray.output())
                        .isTrue();
                // loop devices have no link that is known: nobody works beside them
                assertThat(shelf().all()).hasSize(3);
                tray.kill();
                // one that is killed makes room for another that waits
                assertThat(Host.await(20_000, () -> {
                            shelf().all().stream().filter(Sheet::alive).forEach(TrayOnDrivesTest::kill);
                            return shelf().all().stream().allMatch(Sheet::cutShort);
                        }))
                        .as(shelf().all().toString())
                        .isTrue();
            }
            try (Program again = Program.of(host, "qualify", "--go-on")) {
                assertThat(again.await()).as(again.output()).isEqualTo(1);
                assertThat(again.output()).contains("G-1", "S-1", "FAIL").doesNotContain("\tat ");
            }
            List<Sheet> done = shelf().all().stream()
                    .filter(sheet -> !sheet.order().again().isEmpty())
                    .sorted(Comparator.comparingLong(sheet -> sheet.state().workedMs()))
                    .toList();
            assertThat(done).hasSize(3);
            for (Sheet sheet : done) {
                String outcome = sheet.state().outcome();
                if (sheet.order().tag().equals("S-1")) {
                    assertThat(outcome).as(sheet.state().sentence()).isEqualTo("FAIL");
                } else {
                    // a machine that others use may be late
                    assertThat(outcome).as(sheet.state().sentence()).isIn("PASS", "NO VERDICT");
                }
            }
            for (int i = 1; i < done.size(); i++) {
                assertThat(done.get(i).state().workedMs())
                        .as("one after another")
                        .isGreaterThanOrEqualTo(done.get(i - 1).state().workedMs());
                assertThat(done.get(i).state().workedMs())
                        .isGreaterThan(done.get(i - 1).state().saidMs() - 500);
            }
        }
    }

    /** One that hangs for good, or fails all requests as a pulled one does: the others get the verdicts they get alone. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void aDriveThatHangsOrDiesDisturbsNoOther(boolean hangs) {
        try (Rig bad = Rig.of(FileSystem.EXT4, 128);
                LoopMount good = LoopMount.ext4(128);
                LoopMount other = LoopMount.ext4(128)) {
            bad.drive()
                    .set(
                            hangs
                                    ? Faults.none().hangAfterBytes(4 << 20)
                                    : Faults.none().eioAfterBytes(4 << 20));
            try (Program tray = Program.of(
                    host,
                    "qualify",
                    "--tray",
                    "B-1=" + bad.path(),
                    "G-1=" + good.path(),
                    "G-2=" + other.path(),
                    "--session=trio-8",
                    "--plan=line-check",
                    "--take=8s",
                    "--idle=0s",
                    "--hang-limit=4s",
                    "--file-systems=ext4",
                    "--reserve=16MiB",
                    "--length=60s")) {
                assertThat(tray.await()).as(tray.output()).isEqualTo(1);
                assertThat(tray.output()).doesNotContain("\tat ");
            } finally {
                bad.drive().set(Faults.none());
            }
            assertThat(shelf().all()).hasSize(3).allSatisfy(sheet -> {
                String outcome = sheet.state().outcome();
                if (sheet.order().tag().equals("B-1")) {
                    assertThat(outcome).as(sheet.state().sentence()).isEqualTo("FAIL");
                } else {
                    // a machine that others use may be late
                    assertThat(outcome).as(sheet.state().sentence()).isIn("PASS", "NO VERDICT");
                }
                assertThat(sheet.order().again()).isEmpty();
            });
        }
    }

    private long working() {
        return in(LiveState.Stage.WORKS);
    }

    private long in(LiveState.Stage stage) {
        return shelf().all().stream()
                .filter(sheet -> sheet.alive() && sheet.state().stage() == stage)
                .count();
    }

    private static void kill(Sheet sheet) {
        ProcessHandle.of(sheet.state().pid()).ifPresent(ProcessHandle::destroyForcibly);
    }
}

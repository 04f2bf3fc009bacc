package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.fault;
import static tracksoak.bench.rig.Verdicts.told;
import static tracksoak.bench.rig.Verdicts.verdict;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict.Outcome;

/**
 * The program as people run it, in a process of its own: what is left on the drive and on the host when it is killed,
 * stopped, started twice, or the drive goes away.
 */
@NeedsRig
@Tag("program")
@Execution(ExecutionMode.CONCURRENT)
class WholeProgramTest {

    private static final String[] SHORT = {"--plan", "line-check", "--take", "4s"};

    @TempDir
    Path host;

    /** A sound-check goes through probes, take, close, fill, read-back, take, close, read-back; each kind is killed once. */
    @ParameterizedTest
    @EnumSource(
            value = PhaseKind.class,
            names = {"PROBES", "TAKE", "FILL", "CLOSE", "READ_BACK"})
    void killedInAPhase(PhaseKind during) {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            // so slow that no phase is over between two looks at the record
            rig.drive().set(Faults.none().rate(2_000_000).readRate(2_000_000));
            PhaseKind[] before = switch (during) {
                case PROBES, TAKE -> new PhaseKind[] {};
                case CLOSE -> new PhaseKind[] {PhaseKind.TAKE};
                case FILL -> new PhaseKind[] {PhaseKind.TAKE, PhaseKind.CLOSE};
                default -> new PhaseKind[] {PhaseKind.TAKE, PhaseKind.CLOSE, PhaseKind.FILL};
            };
            String[] plan = {"--plan", "sound-check", "--take-before", "2s", "--fill-cap", "4s", "--take", "2s"};
            try (Program run = Program.qualify(host, rig.path(), plan)) {
                assertThat(run.awaitPhases(before)).as(run.output()).isTrue();
                if (during == PhaseKind.PROBES) {
                    assertThat(Host.await(20_000, () -> rig.drive().log().payloadBytes() > 0))
                            .isTrue();
                } else if (during != PhaseKind.CLOSE) {
                    char op = during == PhaseKind.READ_BACK ? 'R' : 'W';
                    long seen = rig.drive().log().payloadOrRead(op);
                    assertThat(Host.await(20_000, () -> rig.drive().log().payloadOrRead(op) > seen + 3))
                            .isTrue();
                }
                run.kill();

                RunRecord record = run.record().orElseThrow();
                assertThat(run.kinds()).containsExactly(before);
                assertThat(record.state()).isEqualTo(RunState.RUNNING);
                assertThat(record.endedAt()).isNull();
                assertThat(verdict(record).outcome()).isEqualTo(Outcome.NO_VERDICT);
            }
            assertThat(folders(rig)).hasSize(1);
            // what was left by probes may hold all the room
            clearsWhatIsLeft(rig, left, during == PhaseKind.PROBES ? List.of(0, 3) : List.of(0));
            try (Program again = Program.qualify(host, rig.path(), "--plan", "line-check", "--take", "2s")) {
                again.await();
                assertThat(again.record().orElseThrow().state()).isEqualTo(RunState.COMPLETE);
            }
            left.nothing(rig.path());
        }
    }

    private void clearsWhatIsLeft(Rig rig, LeftOnDrive left, List<Integer> lookedAt) {
        try (Program look = Program.qualify(host, rig.path(), "--plan", "line-check", "--take", "2s", "--dry-run")) {
            assertThat(look.await()).as(look.output()).isIn(lookedAt);
            assertThat(look.output()).contains("1 folder of earlier runs lies in", "tracksoak clear");
        }
        try (Program clear = Program.of(host, "clear", rig.path().toString(), "--yes")) {
            assertThat(clear.await()).as(clear.output()).isZero();
        }
        left.nothing(rig.path());
    }

    @Test
    void theSecondRunOnADriveIsRefused() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(10_000_000));
            try (Program first = Program.qualify(host, rig.path(), "--plan", "line-check", "--take", "12s")) {
                assertThat(Host.await(30_000, () -> rig.drive().log().payloadBytes() > 0 || !first.alive()))
                        .isTrue();
                try (Program second = Program.qualify(host, rig.path(), SHORT)) {
                    assertThat(second.await()).as(second.output()).isEqualTo(3);
                    assertThat(second.output()).contains("run").doesNotContain("\tat ");
                    assertThat(second.record()).isEmpty();
                }
                int code = first.await();
                RunRecord record = first.record().orElseThrow();
                assertThat(record.state()).as(told(record)).isEqualTo(RunState.COMPLETE);
                // a machine that others use may be late
                assertThat(verdict(record).outcome()).as(told(record)).isIn(Outcome.PASS, Outcome.NO_VERDICT);
                assertThat(Verdicts.missed(record)).isEmpty();
                assertThat(Verdicts.criterion(record, "intact").met()).isTrue();
                assertThat(code).isEqualTo(verdict(record).outcome() == Outcome.PASS ? 0 : 4);
            }
            left.nothing(rig.path());
        }
    }

    @Test
    void stoppedByAPersonItCleansUp() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(10_000_000));
            try (Program run = Program.qualify(host, rig.path(), "--plan", "line-check", "--take", "60s")) {
                assertThat(Host.await(30_000, () -> rig.drive().log().payloadBytes() > 0 || !run.alive()))
                        .isTrue();
                run.stop();

                run.await();
                RunRecord record = run.record().orElseThrow();
                assertThat(record.state()).as(told(record)).isEqualTo(RunState.INTERRUPTED);
                assertThat(verdict(record).outcome()).isEqualTo(Outcome.NO_VERDICT);
            }
            left.nothing(rig.path());
        }
    }

    /** What was lost by then is proven; whether the drive would have answered is not. */
    @ParameterizedTest
    @CsvSource({"2s, FAIL", "60s, NO_VERDICT"})
    void stoppedByAPersonWhileAWriteHangsItSaysForHowLong(String buffer, Outcome outcome) {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(10_000_000));
            String[] plan = {"--plan", "line-check", "--take", "60s", "--buffer", buffer};
            try (Program run = Program.qualify(host, rig.path(), plan)) {
                assertThat(Host.await(30_000, () -> rig.drive().log().payloadOrRead('W') > 0 || !run.alive()))
                        .isTrue();
                rig.drive().set(Faults.none().hangAfterMs(0));
                assertThat(Host.await(20_000, () -> hasHung(run))).isTrue();
                run.stop();

                assertThat(Host.await(40_000, run::reported)).as(run.output()).isTrue();
                RunRecord record = run.record().orElseThrow();
                assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.UNANSWERED);
                assertThat(fault(record).what()).startsWith("write to ");
                assertThat(fault(record).message()).contains("had not come back for", "stopped by you");
                assertThat(record.phases().get(record.phases().size() - 1).unansweredS())
                        .isBetween(5.0, 40.0);
                assertThat(record.state()).isEqualTo(RunState.INTERRUPTED);
                assertThat(verdict(record).outcome()).as(told(record)).isEqualTo(outcome);
                String told = outcome == Outcome.FAIL
                        ? "it had not answered for"
                        : "You stopped the run while a call to the drive had not come back for";
                assertThat(Host.await(
                                10_000,
                                () -> run.output().contains("tracksoak clear")
                                        && run.output().contains(told)))
                        .as(run.output())
                        .isTrue();
                assertThat(run.output()).doesNotContain("smaller", "last snapshot", "\tat ");
                rig.drive().set(Faults.none());
                assertThat(run.await()).isEqualTo(130);
            }
            clearsWhatIsLeft(rig, left, List.of(0));
        }
    }

    /** The record is saved every 10 s, while a write hangs too. */
    private static boolean hasHung(Program run) {
        return run.record().stream()
                .flatMap(record -> record.phases().stream())
                .anyMatch(phase -> phase.kind() == PhaseKind.TAKE && phase.peakBacklogMs() > 1_500);
    }

    @Test
    void pulledItStillReports() {
        try (Rig rig = Rig.thatKeeps(FileSystem.EXT4, 128)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(10_000_000));
            try (Program run = Program.qualify(host, rig.path(), "--plan", "line-check", "--take", "20s")) {
                assertThat(Host.await(30_000, () -> rig.drive().log().payloadOrRead('W') > 0 || !run.alive()))
                        .isTrue();
                rig.pull();

                assertThat(run.await()).as(run.output()).isEqualTo(1);
                RunRecord record = run.record().orElseThrow();
                assertThat(fault(record).kind()).isEqualTo(Fault.Kind.GONE);
                assertThat(run.reported()).isTrue();
                assertThat(run.output()).contains("tracksoak clear").doesNotContain("\tat ");
            }
            rig.plugInAgain();
            assertThat(folders(rig)).hasSize(1);
            clearsWhatIsLeft(rig, left, List.of(0));
        }
    }

    /** The kernel keeps the process until the drive lets go; record and report must be on the host before. */
    @ParameterizedTest
    @EnumSource(
            value = FileSystem.class,
            names = {"EXT4", "EXFAT"})
    void withAHungDriveRecordAndReportComeFirst(FileSystem fileSystem) {
        try (Rig rig = Rig.of(fileSystem, 128)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(10_000_000));
            try (Program run =
                    Program.qualify(host, rig.path(), "--plan", "line-check", "--take", "20s", "--hang-limit", "3s")) {
                assertThat(Host.await(30_000, () -> rig.drive().log().payloadOrRead('W') > 0 || !run.alive()))
                        .isTrue();
                rig.drive().set(Faults.none().hangAfterMs(0));

                assertThat(Host.await(40_000, run::reported)).as(run.output()).isTrue();
                RunRecord record = run.record().orElseThrow();
                assertThat(fault(record).kind()).isEqualTo(Fault.Kind.HUNG);
                assertThat(verdict(record).outcome()).as(told(record)).isEqualTo(Outcome.FAIL);
                assertThat(Host.await(10_000, () -> run.output().contains("tracksoak clear")))
                        .as(run.output())
                        .isTrue();
                rig.drive().set(Faults.none());
                assertThat(run.await()).isEqualTo(1);
            }
            clearsWhatIsLeft(rig, left, List.of(0));
        }
    }

    private static List<String> folders(Rig rig) {
        return Arrays.stream(Objects.requireNonNull(rig.path().toFile().list()))
                .filter(name -> name.startsWith("TRACKSOAK"))
                .toList();
    }
}

package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.failed;
import static tracksoak.bench.rig.Verdicts.fault;
import static tracksoak.bench.rig.Verdicts.told;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** Drives that go away or refuse in the middle of a run: it always ends, soon, and says what happened. */
@NeedsRig
@Execution(ExecutionMode.CONCURRENT)
class PulledDrivesTest {

    private static final int TRACKS = 8;

    @ParameterizedTest
    @EnumSource(
            value = FileSystem.class,
            names = {"EXT4", "EXFAT"})
    void pulledInTheMiddleOfATake(FileSystem fileSystem) {
        try (Rig rig = Rig.thatKeeps(fileSystem, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig).when(PhaseKind.TAKE, 2, rig::pull);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(8), 60);

            isGone(record, PhaseKind.TAKE);
            run.leavesItsFolder(rig::plugInAgain);
        }
    }

    @Test
    void pulledInTheMiddleOfAFill() {
        try (Rig rig = Rig.thatKeeps(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig).when(PhaseKind.FILL, 2, rig::pull);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.takeFillTake(0, 15, 3), 60);

            isGone(record, PhaseKind.FILL);
            run.leavesItsFolder(rig::plugInAgain);
        }
    }

    @Test
    void pulledInTheMiddleOfAClose() {
        try (Rig rig = Rig.thatKeeps(FileSystem.EXT4, 256)) {
            // so slow from the last second on that the close is still at it when the drive goes
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig)
                    .when(
                            PhaseKind.TAKE,
                            2.6,
                            () -> rig.drive().set(Faults.none().rate(150_000)))
                    .afterPhase(PhaseKind.TAKE, 600, rig::pull);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(3), 60);

            isGone(record, PhaseKind.CLOSE);
            run.leavesItsFolder(rig::plugInAgain);
        }
    }

    @Test
    void anErrorInTheMiddleOfATake() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig)
                    .when(
                            PhaseKind.TAKE,
                            2,
                            () -> rig.drive().set(Faults.none().eioAfterMs(0).eioForPayloadOnly()));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(8), 60);

            assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.IO_ERROR);
            failed(record, "lost-audio");
            assertThat(record.state()).isEqualTo(RunState.COMPLETE);
            run.leavesNothing();
        }
    }

    @Test
    void writeProtectedInTheMiddleOfATake() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig).when(PhaseKind.TAKE, 2, rig::writeProtect);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(8), 60);

            assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.READ_ONLY);
            failed(record, "lost-audio");
            run.leavesItsFolder(rig::makeGood);
        }
    }

    private static void isGone(RunRecord record, PhaseKind during) {
        assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.GONE);
        List<PhaseFacts> phases = record.phases();
        PhaseFacts last = phases.get(phases.size() - 1);
        assertThat(last.kind()).isEqualTo(during);
        assertThat(last.complete()).isFalse();
        failed(record, "lost-audio");
        assertThat(record.state()).isEqualTo(RunState.COMPLETE);
    }
}

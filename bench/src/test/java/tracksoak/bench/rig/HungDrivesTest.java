package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.failed;
import static tracksoak.bench.rig.Verdicts.fault;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** Drives that do not answer in the middle of a run: it always ends, soon, and says what happened. */
@NeedsRig
@Isolated("starting a process waits for the drives this one has open, and some hang")
class HungDrivesTest {

    private static final int TRACKS = 8;

    @ParameterizedTest
    @EnumSource(
            value = FileSystem.class,
            names = {"EXT4", "EXFAT"})
    void aWriteThatNeverComesBack(FileSystem fileSystem) {
        try (Rig rig = Rig.of(fileSystem, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig)
                    .hangLimitS(4)
                    .when(PhaseKind.TAKE, 2, () -> rig.drive().set(Faults.none().hangAfterMs(0)));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(15), 40);

            failed(record, "lost-audio");
            assertThat(fault(record).kind()).isEqualTo(Fault.Kind.HUNG);
            assertThat(run.hung()).isTrue();
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(take.complete()).isFalse();
            // hung from 2 s on, given up after 4 s; 4 s − 2 s of buffer are lost
            assertThat(take.seconds()).isBetween(6.0, 12.0);
            assertThat(take.lostMs()).as(told(record)).isBetween(1_000.0, 4_000.0);
            if (fileSystem == FileSystem.EXT4) {
                run.leavesItsFolder(rig::comesBack);
            } else {
                // this process goes on, where the program's own would end: WholeProgramTest shows that
                run.leavesItsFolderInUse(rig::comesBack);
            }
        }
    }

    @Test
    void aWriteThatHangsEightSecondsAndComesBack() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig)
                    .when(
                            PhaseKind.TAKE,
                            1,
                            () -> rig.drive()
                                    .set(Faults.none()
                                            .rate(10_000_000)
                                            .hangAfterMs(0)
                                            .hangMs(8_000)));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(12), 90);

            failed(record, "lost-audio", "longest-stall");
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(take.complete()).isTrue();
            assertThat(take.lostMs()).as(told(record)).isBetween(5_000.0, 7_000.0);
            assertThat(take.stalls()).anyMatch(stall -> stall.ms() > 7_900 && stall.ms() < 9_000);
            assertThat(phase(record, PhaseKind.READ_BACK).complete()).isTrue();
            run.leavesNothing();
        }
    }
}

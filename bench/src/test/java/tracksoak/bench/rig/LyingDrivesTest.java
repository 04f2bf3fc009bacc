package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.failed;
import static tracksoak.bench.rig.Verdicts.failedOnlyBy;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;

import java.io.IOException;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;

/**
 * Drives that say they kept what they did not. What the bench finds is held against the blocks as the test itself reads
 * them, with code of its own.
 */
@NeedsRig
class LyingDrivesTest {

    private static final long MIB = 1 << 20;

    @Test
    void fakeCapacityThatWrapsIsFoundOut() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXFAT, 256)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive().set(Faults.none().wrap(96 * MIB, 32 * MIB));

            RunRecord record = run.run(Shows.tracks(8), Shows.takeFillTake(2, 60, 0), 180);

            failed(record, "intact");
            ReadBackFacts found = readBack(record);
            assertThat(found.misplaced() + found.stale()).as(told(record)).isGreaterThan(1_000);
            assertThat(found.bad()).as(told(record)).isEqualTo(Blocks.wrong(run.folder(), found.blocks()));
            run.leavesNothing();
        }
    }

    @Test
    void fakeCapacityThatDropsIsFoundOut() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXFAT, 256)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive().set(Faults.none().dropFrom(96 * MIB));

            RunRecord record = run.run(Shows.tracks(8), Shows.takeFillTake(2, 60, 0), 180);

            failed(record, "intact");
            ReadBackFacts found = readBack(record);
            assertThat(found.missing()).as(told(record)).isGreaterThan(1_000);
            assertThat(found.bad()).isEqualTo(found.missing());
            assertThat(found.bad()).isEqualTo(Blocks.wrong(run.folder(), found.blocks()));
            run.leavesNothing();
        }
    }

    @Test
    void oneFlippedBitInTenThousandBlocksIsFoundOut() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive().set(Faults.none().flipEvery(10_000, Qualifying.SEED));

            RunRecord record = run.run(Shows.tracks(8), Shows.takeFillTake(1, 20, 0), 120);

            failedOnlyBy(record, "intact");
            ReadBackFacts found = readBack(record);
            assertThat(rig.drive().log().flipped()).isPositive();
            assertThat(found.flipped())
                    .as(told(record))
                    .isEqualTo(rig.drive().log().flipped());
            assertThat(found.bad()).isEqualTo(found.flipped());
            assertThat(found.good()).isEqualTo(found.blocks() - found.flipped());
            run.leavesNothing();
        }
    }

    private static ReadBackFacts readBack(RunRecord record) {
        return Objects.requireNonNull(phase(record, PhaseKind.READ_BACK).readBack());
    }
}

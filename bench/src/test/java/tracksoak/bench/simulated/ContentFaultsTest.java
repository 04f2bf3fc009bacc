package tracksoak.bench.simulated;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.simulated.FakeCapacity.Past;
import tracksoak.bench.stream.BlockState;

/** What a drive that lies shows when it is read back, and nothing else. */
class ContentFaultsTest {

    private static final int MB = 1 << 20;
    private static final ConstantRate PLAIN = new ConstantRate(MB, 2 * MB, 0);

    @Test
    void honestDriveShowsEveryBlockOfInterleavedFiles() throws IOException {
        Rig rig = Rig.of(PLAIN);
        DriveFile[] files = {rig.drive.create("a"), rig.drive.create("b"), rig.drive.create("c")};
        for (int i = 0; i < 50; i++) {
            for (int stream = 0; stream < 3; stream++) {
                rig.write(files[stream], i * 65_536L, stream, 0, 65_536);
            }
        }
        for (int stream = 0; stream < 3; stream++) {
            assertThat(count(rig, files[stream], 800, stream, 0)).containsExactly(Map.entry(BlockState.GOOD, 800));
        }
    }

    @Test
    void wrappingDriveShowsTheLastWriterOfEachAddress() throws IOException {
        Rig rig = Rig.of(PLAIN, new FakeCapacity(8 * MB, Past.WRAPS));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 12 * MB, MB);
        int blocks = 12 * MB / 4096;
        Map<BlockState, Integer> seen = count(rig, file, blocks, 0, 0);
        // Blocks 0 … 4 MB were overwritten by 8 … 12 MB, which are whole themselves.
        assertThat(seen).containsEntry(BlockState.MISPLACED, blocks / 3).containsEntry(BlockState.GOOD, blocks * 2 / 3);
        assertThat(rig.check(file, 0, 0, 0)).isEqualTo(BlockState.MISPLACED);
        assertThat(rig.check(file, blocks - 1, 0, 0)).isEqualTo(BlockState.GOOD);
        rig.write(file, 0, 0, 0, MB);
        assertThat(rig.check(file, 0, 0, 0)).as("written again, it is whole").isEqualTo(BlockState.GOOD);
        assertThat(rig.check(file, 8 * MB / 4096, 0, 0))
                .as("and the other is gone")
                .isEqualTo(BlockState.MISPLACED);
    }

    /** An entry for each block before it would not fit in memory. */
    @Test
    void wrappingDriveOfTerabytesTakesLittleMemory() {
        Effect effect = new FakeCapacity(4L << 40, Past.WRAPS).start(new SplittableRandom(1));
        int far = 1_000_000_000;
        effect.wrote(far, 16, 0, 16);
        Seen seen = new Seen();
        seen.begin(far + 3);
        effect.look(seen);
        assertThat(seen.block()).isEqualTo(far + 3);
        assertThat(seen.zeros).isFalse();
    }

    @Test
    void wrappingDriveShowsBlocksOfOtherFiles() throws IOException {
        Rig rig = Rig.of(PLAIN, new FakeCapacity(8 * MB, Past.WRAPS));
        DriveFile first = rig.drive.create("a");
        rig.fill(first, 0, 8 * MB, MB);
        DriveFile second = rig.drive.create("b");
        rig.write(second, 0, 5, 1, MB);
        assertThat(rig.check(first, 0, 5, 1)).as("the stamp of the other file").isEqualTo(BlockState.GOOD);
        rig.drive.delete("b");
        assertThat(rig.check(first, 0, 5, 1)).as("also when that is deleted").isEqualTo(BlockState.GOOD);
        assertThat(rig.check(first, 256, 0, 0)).isEqualTo(BlockState.GOOD);
    }

    @Test
    void droppingDriveShowsWhatWasThereBefore() throws IOException {
        Rig rig = Rig.of(PLAIN, new FakeCapacity(8 * MB, Past.DROPS));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 12 * MB, MB);
        assertThat(count(rig, file, 3072, 0, 0))
                .containsOnly(Map.entry(BlockState.GOOD, 2048), Map.entry(BlockState.STALE, 1024));
    }

    @Test
    void zeroingDriveShowsZeros() throws IOException {
        Rig rig = Rig.of(PLAIN, new FakeCapacity(8 * MB, Past.ZEROS));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 12 * MB, MB);
        assertThat(count(rig, file, 3072, 0, 0))
                .containsOnly(Map.entry(BlockState.GOOD, 2048), Map.entry(BlockState.MISSING, 1024));
    }

    @Test
    void weakCellsAreAlwaysTheSame() throws IOException {
        Rig rig = Rig.of(PLAIN, new BitFlips(1000));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 400 * MB, MB);
        Map<BlockState, Integer> seen = count(rig, file, 102_400, 0, 0);
        // Binomial with mean 102.4: four standard deviations.
        int flipped = seen.getOrDefault(BlockState.FLIPPED, 0);
        assertThat(flipped).isBetween(62, 143);
        assertThat(seen)
                .containsOnly(Map.entry(BlockState.FLIPPED, flipped), Map.entry(BlockState.GOOD, 102_400 - flipped));
        assertThat(count(rig, file, 102_400, 0, 0)).isEqualTo(seen);
    }

    @Test
    void forgetfulDriveShowsAnotherRecording() throws IOException {
        Rig rig = Rig.of(PLAIN, new StaleReads(1000));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 400 * MB, MB);
        Map<BlockState, Integer> seen = count(rig, file, 102_400, 0, 0);
        assertThat(seen.get(BlockState.STALE)).isBetween(62, 143);
        assertThat(seen).containsOnlyKeys(BlockState.GOOD, BlockState.STALE);
    }

    @Test
    void forgetfulDriveShowsTheEarlierPass() throws IOException {
        Rig rig = Rig.of(PLAIN, new StaleReads(1));
        DriveFile file = rig.drive.create("a");
        rig.write(file, 0, 0, 2, MB);
        assertThat(rig.check(file, 0, 0, 2)).isEqualTo(BlockState.STALE);
        assertThat(rig.check(file, 0, 0, 1)).as("its stamp").isEqualTo(BlockState.GOOD);
    }

    @Test
    void tornWriteLosesItsSecondHalf() throws IOException {
        Rig rig = Rig.of(PLAIN, new TornWrites(1));
        DriveFile file = rig.drive.create("a");
        rig.write(file, 0, 0, 0, 65_536);
        rig.write(file, 65_536, 0, 0, 4 * 65_536);
        for (int block = 0; block < 16; block++) {
            assertThat(rig.check(file, block, 0, 0)).isEqualTo(block < 8 ? BlockState.GOOD : BlockState.MISSING);
        }
        for (int block = 16; block < 80; block++) {
            assertThat(rig.check(file, block, 0, 0)).isEqualTo(block < 48 ? BlockState.GOOD : BlockState.MISSING);
        }
    }

    private static Map<BlockState, Integer> count(Rig rig, DriveFile file, int blocks, int stream, int pass)
            throws IOException {
        Map<BlockState, Integer> seen = new EnumMap<>(BlockState.class);
        for (int block = 0; block < blocks; block++) {
            seen.merge(rig.check(file, block, stream, pass), 1, Integer::sum);
        }
        return seen;
    }
}

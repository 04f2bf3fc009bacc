package tracksoak.bench.simulated;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.simulated.catalog.SimulatedDrives;

/** The drives people can ask for. */
@Isolated("measures the heap of the whole process")
class SimulatedDrivesTest {

    @Test
    void namesAndSeedsAreUnique() {
        assertThat(SimulatedDrives.all()).hasSizeGreaterThanOrEqualTo(16);
        assertThat(SimulatedDrives.all()).extracting(DriveModel::name).doesNotHaveDuplicates();
        assertThat(SimulatedDrives.all()).extracting(DriveModel::seed).doesNotHaveDuplicates();
        assertThat(SimulatedDrives.all()).allSatisfy(model -> {
            assertThat(model.name()).matches("[a-z]+(-[a-z]+)*");
            assertThat(model.about()).isNotBlank().doesNotContain("\n");
            assertThat(SimulatedDrives.named(model.name())).contains(model);
        });
        assertThat(SimulatedDrives.named("none")).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("tracksoak.bench.simulated.catalog.SimulatedDrives#all")
    void sameSeedAndCallsGiveTheSameTimes(DriveModel model) {
        long first = hashOfTimes(model);
        System.out.printf(Locale.ROOT, "%s: seed %d, times %016x%n", model.name(), model.seed(), first);
        assertThat(hashOfTimes(model)).isEqualTo(first);
        assertThat(hashOfTimes(model.withSeed(model.seed() + 1000))).isNotEqualTo(first);
    }

    @Test
    void saysWhatItIs() {
        SimulatedDrive drive = new Rig(SimulatedDrives.named("crowded-card").orElseThrow()).drive;
        assertThat(drive.facts().bus()).isEqualTo("simulated");
        assertThat(drive.facts().fileSystem()).isEqualTo("fat32");
        assertThat(drive.facts().clusterBytes()).isEqualTo(32_768);
        assertThat(drive.model().behaviours())
                .allSatisfy(behaviour -> assertThat(behaviour.says()).isNotBlank());
    }

    @Test
    void hundredGigabytesStaySmallAndReadBackWhole() throws IOException {
        DriveModel model = DriveModel.of("large", "for a test", 1, 128L << 30, new ConstantRate(1 << 30, 1 << 30, 0));
        long before = heapBytes();
        Rig rig = new Rig(model);
        DriveFile[] files = new DriveFile[64];
        for (int i = 0; i < files.length; i++) {
            files[i] = rig.drive.create("track-" + i);
        }
        for (long chunk = 0; chunk < 100L * (1 << 30) / 65_536 / files.length; chunk++) {
            for (int i = 0; i < files.length; i++) {
                rig.write(files[i], chunk * 65_536, i, 0, 65_536);
            }
        }
        assertThat(heapBytes() - before).as("heap kept for 100 GiB, in bytes").isLessThan(64L << 20);
        assertThat(rig.check(files[17], 123_456, 17, 0)).isEqualTo(tracksoak.bench.stream.BlockState.GOOD);
    }

    private static long heapBytes() {
        System.gc();
        return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
    }

    private static long hashOfTimes(DriveModel model) {
        Rig rig = new Rig(model);
        long hash = 0;
        try {
            DriveFile[] files = {rig.drive.create("a"), rig.drive.create("b"), rig.drive.create("c")};
            for (int i = 0; i < 8_000; i++) {
                for (int stream = 0; stream < files.length; stream++) {
                    hash = hash * 31 + rig.write(files[stream], i * 65_536L, stream, 0, 65_536);
                }
                if (i % 97 == 0) {
                    files[i % 3].flush(i % 2 == 0);
                    rig.clock.advance(100_000_000);
                }
            }
        } catch (IOException e) {
            hash = hash * 31 + e.getClass().getName().hashCode();
        }
        return hash * 31 + rig.clock.nanoTime();
    }
}

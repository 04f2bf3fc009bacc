package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.RecordParts;

class FileSystemShapeTest {
    private static final long MIB = 1L << 20;

    /** Microsoft KB192322: default FAT32 clusters by volume; both ends of each row. */
    @ParameterizedTest
    @CsvSource({"512, 4", "8191, 4", "8192, 8", "16383, 8", "16384, 16", "32767, 16", "32768, 32", "2000000, 32"})
    void knowsTheUsualFat32Cluster(long volumeMib, long clusterKib) {
        assertThat(FileSystemShape.usual("fat32", volumeMib * MIB).clusterBytes())
                .isEqualTo(clusterKib * 1024);
    }

    /** Microsoft KB140365: default exFAT clusters by volume; both sides of each step. */
    @ParameterizedTest
    @CsvSource({"7, 4", "256, 4", "257, 32", "32768, 32", "32769, 128", "4000000, 128"})
    void knowsTheUsualExfatCluster(long volumeMib, long clusterKib) {
        assertThat(FileSystemShape.usual("exfat", volumeMib * MIB).clusterBytes())
                .isEqualTo(clusterKib * 1024);
    }

    /** FAT specification: entries of 32 B, a folder of at most 2,097,152 B, so 65,536 entries. */
    @Test
    void limitsAFat32FolderByItsEntries() {
        // One short entry for names up to 13 characters needs one long-name entry beside it.
        FileSystemShape shape = named(FileSystemShape.fat32(4096), 13);
        assertThat(shape.fitsOneFolder(32_767)).isTrue(); // 2 × 32,767 + 2 of its own = 65,536
        assertThat(shape.fitsOneFolder(32_768)).isFalse();
        assertThat(named(FileSystemShape.fat32(4096), 14).fitsOneFolder(21_844)).isTrue();
        assertThat(named(FileSystemShape.fat32(4096), 14).fitsOneFolder(21_845)).isFalse();
        assertThat(FileSystemShape.of("ext4", 4096).fitsOneFolder(1_000_000)).isTrue();
    }

    /** exFAT specification 1.00: a file, a stream and a name entry of 32 B per 15 characters. */
    @Test
    void countsExfatEntries() {
        FileSystemShape shape = named(FileSystemShape.exfat(4096), 15);
        assertThat(shape.directoryBytes(42)).isEqualTo(4096); // 42 × 96 = 4,032
        assertThat(shape.directoryBytes(43)).isEqualTo(8192); // 43 × 96 = 4,128
        assertThat(named(shape, 16).directoryBytes(32)).isEqualTo(4096); // 32 × 128 = 4,096
        assertThat(named(shape, 16).directoryBytes(33)).isEqualTo(8192);
    }

    @Test
    void givesAnEmptyFolderOneCluster() {
        assertThat(FileSystemShape.exfat(32768).directoryBytes(0)).isEqualTo(32768);
        assertThat(FileSystemShape.fat32(512).directoryBytes(0)).isEqualTo(512);
    }

    @Test
    void roundsFilesUpToClusters() {
        FileSystemShape shape = FileSystemShape.exfat(131_072);
        assertThat(shape.clusters(0)).isZero();
        assertThat(shape.clusters(1)).isEqualTo(1);
        assertThat(shape.clusters(131_072)).isEqualTo(1);
        assertThat(shape.clusters(131_073)).isEqualTo(2);
        assertThat(shape.clusters(Long.MAX_VALUE)).isEqualTo(70_368_744_177_664L);
    }

    @Test
    void saysWhichFiguresAreEstimates() {
        Demand demand = Demand.of(SessionCatalog.shipped().find("band-32"));
        assertThat(demand.roomOn(FileSystemShape.exfat(131_072)).exact()).isTrue();
        assertThat(demand.roomOn(FileSystemShape.of("ext4", 4096)).exact()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(longs = {0, -4096, 256, 1000, 4095, 64L << 20, Long.MIN_VALUE})
    void refusesAnImpossibleCluster(long clusterBytes) {
        assertThatThrownBy(() -> FileSystemShape.of("exfat", clusterBytes))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(clusterBytes + " B: must be a power of two from 512 B to 32 MiB");
    }

    private static FileSystemShape named(FileSystemShape shape, int chars) {
        return RecordParts.of(shape).with("nameChars", chars).make();
    }
}

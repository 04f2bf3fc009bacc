package tracksoak.bench.volume;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.rig.Host;
import tracksoak.bench.rig.NeedsCommand;
import tracksoak.profiles.base.Problem;

/** FAT32 volumes made by mkfs.fat and filled by mtools, held against what mtools and fsck.fat say of them. */
@NeedsCommand({"mkfs.vfat", "mcopy", "mdel", "mmd", "mshowfat", "fsck.fat"})
class Fat32Test {

    private static final Pattern RUN = Pattern.compile("<(\\d+)(?:-(\\d+))?>");

    @TempDir
    Path folder;

    @Test
    void findsEveryFileWhereMtoolsHasPutIt() throws IOException {
        Path image = broken(64, "stick.img", 0);

        Volume volume = read(image);

        assertThat(volume.label()).isEqualTo("WAGON");
        assertThat(volume.fileSystem()).isEqualTo("fat32");
        assertThat(volume.clusterBytes()).isEqualTo(512);
        assertThat(volume.dirty()).isFalse();
        assertThat(volume.troubles()).isEmpty();
        assertThat(volume.files().stream().map(VolumeFile::path))
                .contains("Act one, voices.wav", "TAKE/kalt & naß.wav", "TAKE/plain.txt");
        for (VolumeFile file : volume.files()) {
            if (!file.folder()) {
                assertThat(clusters(volume, file)).as(file.path()).isEqualTo(asMtoolsSays(image, file.path()));
                assertThat(content(image, file)).as(file.path()).isEqualTo(payload(file.path(), file.sizeBytes()));
            }
        }
        assertThat(volume.files().stream().mapToInt(file -> file.extents().size()))
                .as("some are in pieces")
                .anyMatch(pieces -> pieces > 3);
        assertThat(Host.run("fsck.fat", "-vn", image.toString()))
                .contains(volume.clusterBytes() + " bytes per cluster")
                .contains("Data area starts at byte " + volume.heap().startByte())
                .contains(volume.clusters() + " data clusters");
    }

    @Test
    void findsTheVolumeInAPartition() throws IOException {
        long start = 2048L * 512;
        Path image = broken(80, "parted.img", start);
        try (RandomAccessFile table = new RandomAccessFile(image.toFile(), "rw")) {
            table.seek(446);
            table.write(new byte[] {0, 0, 0, 0, 0x0C, 0, 0, 0, 0, 8, 0, 0, 0, 0, 2, 0});
            table.seek(510);
            table.write(new byte[] {0x55, (byte) 0xAA});
        }
        Volume volume = read(image);

        assertThat(volume.partition()).isEqualTo(new Partition(1, start, 0x20000L * 512));
        VolumeFile file = volume.files().stream()
                .filter(one -> one.path().equals("Act one, voices.wav"))
                .findFirst()
                .orElseThrow();
        assertThat(content(image, file)).isEqualTo(payload(file.path(), file.sizeBytes()));
    }

    @Test
    void tellsThatItWasNotUnmounted() throws IOException {
        Path image = broken(64, "dirty.img", 0);
        try (RandomAccessFile boot = new RandomAccessFile(image.toFile(), "rw")) {
            boot.seek(65);
            boot.write(1);
        }
        assertThat(read(image).dirty()).isTrue();
        assertThat(Host.attempt(20, "fsck.fat", "-n", image.toString()).output())
                .contains("Dirty bit is set");

        Volume sound = read(broken(64, "marked.img", 0));
        try (RandomAccessFile table =
                new RandomAccessFile(folder.resolve("marked.img").toFile(), "rw")) {
            table.seek(sound.tables().get(0).startByte() + 7);
            table.write(0x07);
        }
        assertThat(read(folder.resolve("marked.img")).dirty()).isTrue();
        assertThat(read(folder.resolve("marked.img")).mediaFailure()).isFalse();
    }

    @Test
    void tellsWhatContradictsItself() throws IOException {
        Path image = broken(64, "circle.img", 0);
        Volume volume = read(image);
        VolumeFile file = volume.files().stream()
                .filter(one -> one.path().equals("Act one, voices.wav"))
                .findFirst()
                .orElseThrow();
        long second = clusters(volume, file).get(1);
        try (RandomAccessFile table = new RandomAccessFile(image.toFile(), "rw")) {
            table.seek(volume.tables().get(0).startByte() + second * 4);
            table.writeInt(Integer.reverseBytes((int) second));
        }

        assertThat(read(image).troubles())
                .containsExactlyInAnyOrder(
                        "\"Act one, voices.wav\" has clusters that it has already.",
                        "\"Act one, voices.wav\" has clusters for 1024 of its 40000 bytes.");
    }

    @Test
    void refusesWhatItCannotRead() throws IOException {
        Path small = folder.resolve("small.img");
        size(small, 16 << 20);
        assertThatThrownBy(() -> read(small)).isInstanceOf(Problem.class).hasMessageContaining("no file system");

        Host.run("mkfs.vfat", "-F", "16", small.toString());
        assertThatThrownBy(() -> read(small)).isInstanceOf(Problem.class).hasMessageContaining("FAT16");

        Path cut = broken(64, "cut.img", 0);
        size(cut, 30_000);
        assertThatThrownBy(() -> read(cut)).isInstanceOf(Problem.class).hasMessageContaining("beyond the end");

        size(small, 100);
        assertThatThrownBy(() -> read(small)).isInstanceOf(Problem.class).hasMessageContaining("no file system");
    }

    /** A volume whose free space is in pieces before the larger files come. */
    private Path broken(int mebibytes, String name, long offset) throws IOException {
        Path image = folder.resolve(name);
        size(image, (long) mebibytes << 20);
        String sectors = String.valueOf(64 << 10);
        Host.run(
                "mkfs.vfat",
                "-F",
                "32",
                "-s",
                "1",
                "-n",
                "WAGON",
                "--offset",
                String.valueOf(offset / 512),
                image.toString(),
                sectors);
        String drive = image + "@@" + offset;
        for (int i = 0; i < 12; i++) {
            copy(drive, "fill-" + i, 3000);
        }
        for (int i = 1; i < 12; i += 2) {
            Host.run("mdel", "-i", drive, "::fill-" + i);
        }
        try (RandomAccessFile info = new RandomAccessFile(image.toFile(), "rw")) {
            info.seek(offset + 512 + 492); // where to look for free clusters first: unknown, so from the beginning
            info.writeInt(-1);
        }
        Host.run("mmd", "-i", drive, "::TAKE");
        copy(drive, "Act one, voices.wav", 40_000);
        copy(drive, "TAKE/kalt & naß.wav", 70_001);
        copy(drive, "TAKE/plain.txt", 0);
        return image;
    }

    private void copy(String drive, String path, int bytes) throws IOException {
        Path file = folder.resolve("payload");
        Files.write(file, payload(path, bytes));
        Host.run("mcopy", "-o", "-i", drive, file.toString(), "::" + path);
    }

    private static byte[] payload(String path, long bytes) {
        byte[] payload = new byte[(int) bytes];
        new Random(path.hashCode()).nextBytes(payload);
        return payload;
    }

    private static List<Long> asMtoolsSays(Path image, String path) {
        List<Long> clusters = new ArrayList<>();
        Matcher run = RUN.matcher(Host.run("mshowfat", "-i", image.toString(), "::" + path));
        while (run.find()) {
            long to = Long.parseLong(run.group(2) == null ? run.group(1) : run.group(2));
            for (long cluster = Long.parseLong(run.group(1)); cluster <= to; cluster++) {
                clusters.add(cluster);
            }
        }
        return clusters.equals(List.of(0L)) ? List.of() : clusters;
    }

    private static List<Long> clusters(Volume volume, VolumeFile file) {
        List<Long> clusters = new ArrayList<>();
        for (Extent extent : file.extents()) {
            for (long at = extent.startByte(); at < extent.endByte(); at += volume.clusterBytes()) {
                clusters.add((at - volume.heap().startByte()) / volume.clusterBytes() + 2);
            }
        }
        return clusters;
    }

    static byte[] content(Path image, VolumeFile file) throws IOException {
        ByteArrayOutputStream content = new ByteArrayOutputStream();
        try (ImageFile bytes = ImageFile.open(image)) {
            for (Extent extent : file.extents()) {
                int wanted = (int) Math.min(extent.lengthBytes(), file.sizeBytes() - content.size());
                content.write(bytes.read(extent.startByte(), wanted));
            }
        }
        return content.toByteArray();
    }

    static Volume read(Path image) throws IOException {
        try (ImageFile bytes = ImageFile.open(image)) {
            return VolumeReader.read(bytes);
        }
    }

    static void size(Path file, long bytes) throws IOException {
        try (RandomAccessFile image = new RandomAccessFile(file.toFile(), "rw")) {
            image.setLength(bytes);
        }
    }
}

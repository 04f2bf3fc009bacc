package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.profiles.RigTool.need;
import static tracksoak.profiles.RigTool.needThat;
import static tracksoak.profiles.RigTool.run;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Room and cluster arithmetic against images made by dosfstools and exfatprogs, with real files in them. */
@Tag("rig")
class MadeFileSystemTest {
    private static final long MIB = 1L << 20;

    @TempDir
    Path folder;

    /** Sparse images, so the large ones cost little; the sector and cluster fields are those of the FAT boot sector. */
    @ParameterizedTest
    @CsvSource({"600", "9000", "20000", "40000"})
    void takesTheClusterDosfstoolsTakes(long volumeMib) throws IOException, InterruptedException {
        need("mkfs.vfat");
        Path image = image(volumeMib);
        run("mkfs.vfat", "-F", "32", image.toString());
        ByteBuffer boot = bootSector(image);
        long clusterBytes = (long) boot.getShort(11) * boot.get(13);
        assertThat(FileSystemShape.usual("fat32", volumeMib * MIB).clusterBytes())
                .isEqualTo(clusterBytes);
        long dataSectors = Integer.toUnsignedLong(boot.getInt(32))
                - boot.getShort(14)
                - boot.get(16) * Integer.toUnsignedLong(boot.getInt(36));
        // fewest: Microsoft fatgen103, from memory; most: Microsoft KB314463
        assertThat(dataSectors / boot.get(13)).isBetween(65_525L, 268_435_445L);
    }

    @ParameterizedTest
    @CsvSource({"64", "256", "300", "32768", "40000"})
    void takesTheClusterExfatprogsTake(long volumeMib) throws IOException, InterruptedException {
        need("mkfs.exfat", "dump.exfat");
        Path image = image(volumeMib);
        run("mkfs.exfat", image.toString());
        ByteBuffer boot = bootSector(image);
        // exFAT specification 1.00, §3.1: ClusterCount at 92, BytesPerSectorShift at 108, SectorsPerClusterShift at
        // 109.
        long clusterBytes = 1L << (boot.get(108) + boot.get(109));
        long clusters = Integer.toUnsignedLong(boot.getInt(92));
        assertThat(FileSystemShape.usual("exfat", volumeMib * MIB).clusterBytes())
                .isEqualTo(clusterBytes);
        // Microsoft exFAT specification 1.00, §3.1.9
        assertThat(clusters).isLessThanOrEqualTo((1L << 32) - 11);
        String dump = run("dump.exfat", image.toString());
        assertThat(number(dump, "Total Clusters:\\s+(\\d+)")).isEqualTo(clusters);
        assertThat(number(dump, "Cluster size:\\s+(\\d+)")).isEqualTo(clusterBytes);
    }

    @ParameterizedTest
    @CsvSource({"512, 20", "4096, 90", "32768, 3"})
    void needsTheRoomFilesTakeInAFat32Image(int clusterBytes, int tracks) throws IOException, InterruptedException {
        need("mkfs.vfat", "mmd", "mcopy", "minfo", "fsck.vfat");
        Demand demand = smallDemand(tracks);
        Path image = image(Math.max(40, clusterBytes * 70_000L / MIB));
        run("mkfs.vfat", "-F", "32", "-s", String.valueOf(clusterBytes / 512), image.toString());
        String device = image.toString();
        long before = number(run("minfo", "-i", device, "::"), "free clusters=(\\d+)");
        long usedBefore = number(run("fsck.vfat", "-n", device), " (\\d+)/\\d+ clusters");

        run("mmd", "-i", device, "::takes");
        FileSystemShape shape = FileSystemShape.fat32(clusterBytes);
        List<String> copy = new ArrayList<>(List.of("mcopy", "-i", device));
        files(demand, shape).forEach(f -> copy.add(f.toString()));
        copy.add("::takes/");
        run(copy.toArray(String[]::new));

        long taken = before - number(run("minfo", "-i", device, "::"), "free clusters=(\\d+)");
        long used = number(run("fsck.vfat", "-n", device), " (\\d+)/\\d+ clusters") - usedBefore;
        assertThat(demand.roomOn(shape).totalBytes())
                .isEqualTo(taken * clusterBytes)
                .isEqualTo(used * clusterBytes);
    }

    @ParameterizedTest
    @CsvSource({"4096, 90", "32768, 300", "131072, 5"})
    void needsTheRoomFilesTakeInAnExfatImage(int clusterBytes, int tracks) throws IOException, InterruptedException {
        need("mkfs.exfat", "dump.exfat", "mount.exfat-fuse", "umount", "losetup");
        for (String device : List.of("/dev/fuse", "/dev/loop-control")) {
            needThat(Files.isWritable(Path.of(device)), device + " cannot be opened, so nothing can be mounted");
        }
        Demand demand = smallDemand(tracks);
        FileSystemShape shape = FileSystemShape.exfat(clusterBytes);
        List<Path> files = files(demand, shape);
        Path image = image(200);
        run("mkfs.exfat", "-c", String.valueOf(clusterBytes), image.toString());
        long before = number(run("dump.exfat", image.toString()), "Free Clusters:\\s+(\\d+)");

        String loop = run("losetup", "-f", "--show", image.toString()).strip();
        try {
            copyTo(loop, files);
        } finally {
            run("losetup", "-d", loop);
        }

        long taken = before - number(run("dump.exfat", image.toString()), "Free Clusters:\\s+(\\d+)");
        assertThat(demand.roomOn(shape).totalBytes()).isEqualTo(taken * clusterBytes);
    }

    private void copyTo(String loop, List<Path> files) throws IOException, InterruptedException {
        Path mount = Files.createDirectory(folder.resolve("mount"));
        run("mount.exfat-fuse", loop, mount.toString());
        try {
            Path takes = Files.createDirectory(mount.resolve("takes"));
            for (Path file : files) {
                Files.copy(file, takes.resolve(file.getFileName()));
            }
        } finally {
            run("umount", mount.toString());
        }
    }

    /** Some tracks of one file each, and one interleaved group that splits: sizes on both sides of cluster boundaries. */
    private static Demand smallDemand(int tracks) {
        TrackGroup group = new TrackGroup(tracks, 8_000, SampleFormat.PCM_16);
        Demand split = Demand.of(Sessions.of(
                FileLayout.FILE_PER_TRACK, 9, 1 << 20, List.of(group, new TrackGroup(2, 96_000, SampleFormat.PCM_24))));
        assertThat(split.roomOn(FileSystemShape.exfat(4096)).files()).isEqualTo(tracks + 2 * 3);
        return split;
    }

    /** The files of a demand, sparse, with names of the length the shape takes for granted. */
    private List<Path> files(Demand demand, FileSystemShape shape) throws IOException {
        List<Path> files = new ArrayList<>();
        for (GroupDemand group : demand.groups()) {
            Splits splits = group.splits(
                    new FileLimit(demand.session().fileLimitBytes()),
                    demand.session().lengthS());
            for (long i = 0; i < group.streams() * splits.files(); i++) {
                boolean last = i % splits.files() == splits.files() - 1;
                long data = last ? splits.lastFileDataBytes() : splits.dataPerFileBytes();
                String name = String.format(Locale.ROOT, "show-track-%05d-tk.data", files.size());
                assertThat(name).hasSize(shape.nameChars());
                Path file = folder.resolve(name);
                try (RandomAccessFile writer = new RandomAccessFile(file.toFile(), "rw")) {
                    writer.setLength(FileLimit.fileBytes(data));
                }
                files.add(file);
            }
        }
        return files;
    }

    private Path image(long mib) throws IOException {
        Path image = folder.resolve("drive.img");
        try (RandomAccessFile writer = new RandomAccessFile(image.toFile(), "rw")) {
            writer.setLength(mib * MIB);
        }
        return image;
    }

    private static ByteBuffer bootSector(Path image) throws IOException {
        ByteBuffer sector = ByteBuffer.allocate(512).order(ByteOrder.LITTLE_ENDIAN);
        try (FileChannel channel = FileChannel.open(image)) {
            while (sector.hasRemaining() && channel.read(sector) >= 0) {}
        }
        return sector;
    }

    private static long number(String output, String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(output);
        assertThat(matcher.find()).as("%s in %s", pattern, output).isTrue();
        return Long.parseLong(matcher.group(1));
    }
}

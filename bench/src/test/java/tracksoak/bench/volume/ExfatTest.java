package tracksoak.bench.volume;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.rig.Host;
import tracksoak.bench.rig.LoopMount;
import tracksoak.bench.rig.NeedsRig;
import tracksoak.profiles.base.Problem;

/** exFAT volumes made by mkfs.exfat and filled through exfat-fuse, held against what was written, dump.exfat and fsck.exfat. */
@NeedsRig
class ExfatTest {

    private static final int DAMAGED = 400;

    @TempDir
    Path folder;

    @Test
    void findsWhatAnotherDriverHasWritten() throws IOException {
        Map<String, byte[]> written = new TreeMap<>();
        Path image = filled(written);

        Volume volume = Fat32Test.read(image);

        assertThat(volume.fileSystem()).isEqualTo("exfat");
        assertThat(volume.label()).isEqualTo("Lantern");
        assertThat(volume.dirty()).isFalse();
        assertThat(volume.troubles()).isEmpty();
        Map<String, byte[]> found = new TreeMap<>();
        for (VolumeFile file : volume.files()) {
            if (!file.folder()) {
                found.put(file.path(), Fat32Test.content(image, file));
            }
        }
        assertThat(found).containsOnlyKeys(written.keySet());
        found.forEach((path, content) -> assertThat(content).as(path).isEqualTo(written.get(path)));
        assertThat(volume.files().stream()
                        .mapToInt(file -> file.extents().size())
                        .max()
                        .orElse(0))
                .as("files written in turns lie in pieces")
                .isGreaterThan(5);
        long used =
                volume.files().stream().mapToLong(VolumeFile::allocatedBytes).sum() / volume.clusterBytes();
        String dump = Host.run("dump.exfat", image.toString()).replaceAll("\\s+", " ");
        assertThat(dump)
                .contains("Cluster size: " + volume.clusterBytes())
                .contains("Total Clusters: " + volume.clusters())
                .contains(
                        "Cluster Heap Offset (sector offset): " + volume.heap().startByte() / 512)
                .contains("FAT Offset(sector offset): " + volume.tables().get(0).startByte() / 512);
        // beside the files the bitmap and the table of capital letters take clusters
        long bitmap = volume.bitmap().stream().mapToLong(Extent::lengthBytes).sum() / volume.clusterBytes();
        long letters = (5836L + volume.clusterBytes() - 1) / volume.clusterBytes();
        assertThat(dump).contains("Free Clusters: " + (volume.clusters() - used - bitmap - letters));
    }

    @Test
    void tellsTheDirtyFlagAndSpaceGivenInAdvance() throws IOException {
        Path image = filled(new TreeMap<>());
        Volume sound = Fat32Test.read(image);
        VolumeFile file = sound.files().stream()
                .filter(one -> one.path().endsWith("voice 1.wav"))
                .findFirst()
                .orElseThrow();
        try (RandomAccessFile bytes = new RandomAccessFile(image.toFile(), "rw")) {
            bytes.seek(106);
            bytes.write(6);
            bytes.seek(file.entryByte() + 32 + 8);
            bytes.writeLong(Long.reverseBytes(4096));
        }

        Volume dirty = Fat32Test.read(image);

        assertThat(dirty.dirty()).isTrue();
        assertThat(dirty.mediaFailure()).isTrue();
        VolumeFile early = dirty.files().stream()
                .filter(one -> one.path().equals(file.path()))
                .findFirst()
                .orElseThrow();
        assertThat(early.validBytes()).isEqualTo(4096);
        assertThat(early.sizeBytes()).isEqualTo(file.sizeBytes());
        assertThat(dirty.troubles()).containsExactly("\"" + file.path() + "\" has an entry whose checksum is wrong.");
        assertThat(Host.attempt(20, "fsck.exfat", "-n", image.toString()).exit())
                .isNotZero();
    }

    @Test
    void endsWithinBoundsWhateverIsDamaged() throws IOException {
        Path image = filled(new TreeMap<>());
        Volume sound = Fat32Test.read(image);
        List<long[]> targets = new ArrayList<>();
        targets.add(new long[] {0, 512});
        targets.add(new long[] {sound.tables().get(0).startByte(), 4096});
        sound.files().stream()
                .filter(VolumeFile::folder)
                .forEach(one -> targets.add(new long[] {one.extents().get(0).startByte(), 1024}));
        Path hurt = folder.resolve("hurt.img");
        Files.copy(image, hurt, StandardCopyOption.REPLACE_EXISTING);
        for (int seed = 0; seed < DAMAGED; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Map<Long, Byte> before = new TreeMap<>();
            try (RandomAccessFile bytes = new RandomAccessFile(hurt.toFile(), "rw")) {
                for (int i = random.nextInt(1, 12); i > 0; i--) {
                    long[] target = targets.get(random.nextInt(targets.size()));
                    long at = target[0] + random.nextLong(target[1]);
                    bytes.seek(at);
                    byte old = bytes.readByte();
                    before.putIfAbsent(at, old);
                    bytes.seek(at);
                    bytes.write(random.nextInt(256));
                }
                look(hurt, seed);
                for (Map.Entry<Long, Byte> one : before.entrySet()) {
                    bytes.seek(one.getKey());
                    bytes.write(one.getValue());
                }
            }
        }
    }

    private static void look(Path image, int seed) throws IOException {
        try {
            Volume volume = Fat32Test.read(image);
            for (VolumeFile file : volume.files()) {
                assertThat(file.validBytes()).as("seed %s", seed).isBetween(0L, file.sizeBytes());
                assertThat(file.extents())
                        .as("seed %s", seed)
                        .allMatch(extent -> extent.startByte() >= volume.heap().startByte()
                                && extent.endByte() <= volume.heap().endByte()
                                && extent.lengthBytes() > 0);
            }
        } catch (Problem told) {
            assertThat(told.getMessage()).as("seed %s", seed).isNotBlank();
        }
    }

    @Test
    void refusesAnExfatThatPointsNowhere() throws IOException {
        Path image = filled(new TreeMap<>());
        try (RandomAccessFile bytes = new RandomAccessFile(image.toFile(), "rw")) {
            bytes.seek(88);
            bytes.writeInt(-1);
        }
        assertThatThrownBy(() -> Fat32Test.read(image))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("too damaged");
    }

    /** Three tracks written in turns, one file of one piece, a folder. */
    private Path filled(Map<String, byte[]> written) throws IOException {
        try (LoopMount drive = LoopMount.unmounted(32, "mkfs.exfat", "-c", "4096", "-L", "Lantern")) {
            Host.run("mount.exfat-fuse", drive.device().toString(), drive.path().toString());
            Map<String, ByteArrayOutputStream> contents = new TreeMap<>();
            Random random = new Random(7);
            Files.createDirectory(drive.path().resolve("Act two"));
            for (int turn = 0; turn < 10; turn++) {
                for (int track = 1; track <= 3; track++) {
                    append(drive.path(), "Act two/voice " + track + ".wav", 7000, random, contents);
                }
            }
            append(drive.path(), "ein sehr langer Name für eine Datei mit Umlauten äöü.txt", 50_000, random, contents);
            append(drive.path(), "empty", 0, random, contents);
            contents.forEach((path, content) -> written.put(path, content.toByteArray()));
            drive.unmount();
            Path image = folder.resolve("exfat.img");
            try (FileChannel device = FileChannel.open(drive.device(), StandardOpenOption.READ);
                    FileChannel copy = FileChannel.open(
                            image,
                            StandardOpenOption.CREATE,
                            StandardOpenOption.TRUNCATE_EXISTING,
                            StandardOpenOption.WRITE)) {
                copy.transferFrom(device, 0, 32 << 20);
            }
            return image;
        }
    }

    private static void append(
            Path drive, String path, int bytes, Random random, Map<String, ByteArrayOutputStream> contents)
            throws IOException {
        byte[] piece = new byte[bytes];
        random.nextBytes(piece);
        try (OutputStream file =
                Files.newOutputStream(drive.resolve(path), StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
            file.write(piece);
        }
        contents.computeIfAbsent(path, one -> new ByteArrayOutputStream()).writeBytes(piece);
    }
}

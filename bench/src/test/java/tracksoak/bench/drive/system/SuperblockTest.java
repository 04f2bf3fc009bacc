package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.find.Touch;
import tracksoak.bench.rig.NeedsCommand;
import tracksoak.bench.rig.RigCondition;

/** Held against file systems made by dosfstools, exfatprogs and e2fsprogs. */
class SuperblockTest {

    private static final long SEED = 99;

    @TempDir
    Path folder;

    @Test
    @NeedsCommand("mkfs.vfat")
    void tellsTheWidthsOfFatApart() throws Exception {
        assertThat(made(4, "mkfs.vfat", "-F", "12", "-s", "4")).isEqualTo(new Superblock("fat12", 2048));
        assertThat(made(64, "mkfs.vfat", "-F", "16", "-s", "4")).isEqualTo(new Superblock("fat16", 2048));
        assertThat(made(512, "mkfs.vfat", "-F", "32", "-s", "8")).isEqualTo(new Superblock("fat32", 4096));
        assertThat(made(4096, "mkfs.vfat", "-F", "32", "-s", "64")).isEqualTo(new Superblock("fat32", 32768));
    }

    @Test
    @NeedsCommand("mkfs.exfat")
    void readsTheClusterOfExfat() throws Exception {
        assertThat(made(64, "mkfs.exfat", "-c", "32K")).isEqualTo(new Superblock("exfat", 32 << 10));
        assertThat(made(64, "mkfs.exfat", "-c", "128K")).isEqualTo(new Superblock("exfat", 128 << 10));
    }

    @Test
    @NeedsCommand("mkfs.ext4")
    void tellsTheExtFamilyApart() throws Exception {
        assertThat(made(32, "mkfs.ext4", "-q", "-F", "-b", "4096")).isEqualTo(new Superblock("ext4", 4096));
        assertThat(made(32, "mkfs.ext4", "-q", "-F", "-t", "ext3", "-b", "1024"))
                .isEqualTo(new Superblock("ext3", 1024));
        assertThat(made(32, "mkfs.ext4", "-q", "-F", "-t", "ext2", "-b", "2048"))
                .isEqualTo(new Superblock("ext2", 2048));
    }

    @Test
    void recognisesNothingInNothingAndThrowsNothing() {
        assertThat(Superblock.of(new byte[0])).isNull();
        assertThat(Superblock.of(new byte[Superblock.LENGTH])).isNull();
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        for (int round = 0; round < 500; round++) {
            byte[] head = new byte[random.nextInt(Superblock.LENGTH)];
            random.nextBytes(head);
            if (head.length > 512) {
                head[510] = 0x55;
                head[511] = (byte) 0xAA;
                head[11] = 0;
                head[12] = 2;
                head[13] = (byte) (1 << random.nextInt(8));
            }
            Superblock found = Superblock.of(head);
            if (found != null) {
                assertThat(found.clusterBytes()).isBetween(0L, 32L << 20);
            }
        }
    }

    private @Nullable Superblock made(int mebibytes, String... mkfs) throws IOException, InterruptedException {
        Path image = folder.resolve("image");
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength((long) mebibytes << 20);
        }
        List<String> command = new ArrayList<>(List.of(mkfs));
        command.set(0, RigCondition.find(mkfs[0]).orElseThrow().toString());
        command.add(image.toString());
        Path output = folder.resolve("output");
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(output.toFile())
                .start();
        if (!process.waitFor(20, TimeUnit.SECONDS)) {
            process.destroyForcibly();
        }
        assertThat(process.waitFor())
                .as("%s: %s", command, Files.readString(output))
                .isZero();
        byte[] head = Objects.requireNonNull(Touch.HERE.head(image.toString()));
        Files.delete(image);
        assertThat(head).hasSize(Superblock.LENGTH);
        return Superblock.of(head);
    }
}

package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
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
        assertThat(made(64, "mkfs.vfat", "-F", "16", "-s", "4")).isEqualTo(new Superblock("fat16", 2048, false, null));
        assertThat(made(512, "mkfs.vfat", "-F", "32", "-s", "8")).isEqualTo(new Superblock("fat32", 4096, false, null));
        assertThat(made(4096, "mkfs.vfat", "-F", "32", "-s", "64"))
                .isEqualTo(new Superblock("fat32", 32768, false, null));
    }

    @Test
    @NeedsCommand("mkfs.exfat")
    void readsTheClusterOfExfat() throws Exception {
        assertThat(made(64, "mkfs.exfat", "-c", "32K")).isEqualTo(new Superblock("exfat", 32 << 10, false, null));
        assertThat(made(64, "mkfs.exfat", "-c", "128K")).isEqualTo(new Superblock("exfat", 128 << 10, false, null));
    }

    @Test
    @NeedsCommand("mkfs.exfat")
    void readsTheLabelOfExfat() throws Exception {
        assertThat(labelled("mkfs.exfat", "-L", "SHOW B", "-c", "128K").label()).isEqualTo("SHOW B");
        assertThat(labelled("mkfs.exfat").label()).isNull();
        assertThat(Superblock.exfatRootAt(new byte[Superblock.LENGTH])).isZero();
        byte[] noise = new byte[Superblock.LENGTH];
        new Random(SEED).nextBytes(noise);
        System.arraycopy("EXFAT   ".getBytes(StandardCharsets.US_ASCII), 0, noise, 3, 8);
        assertThat(Objects.requireNonNull(Superblock.of(noise)).labelled(noise).type())
                .isEqualTo("exfat");
    }

    private Superblock labelled(String... mkfs) throws Exception {
        Path image = folder.resolve("image");
        byte[] head = head(64, mkfs);
        byte[] root = Objects.requireNonNull(Touch.HERE.part(image.toString(), Superblock.exfatRootAt(head)));
        return Objects.requireNonNull(Superblock.of(head)).labelled(root);
    }

    /** Held against what blkid says, which the device manager asks. */
    @Test
    @NeedsCommand({"mkfs.vfat", "mkfs.exfat", "blkid"})
    void readsTheNumberAVolumeWasGiven() throws Exception {
        assertThat(Superblock.idIn(head(512, "mkfs.vfat", "-F", "32", "-i", "1A2B3C4D")))
                .isEqualTo("1A2B-3C4D");
        assertThat(Superblock.idIn(head(64, "mkfs.vfat", "-F", "16", "-i", "00000C4D")))
                .isEqualTo("0000-0C4D");
        String exfat = Superblock.idIn(head(64, "mkfs.exfat"));
        Process blkid = new ProcessBuilder(
                        RigCondition.find("blkid").orElseThrow().toString(),
                        "-p",
                        "-o",
                        "value",
                        "-s",
                        "UUID",
                        folder.resolve("image").toString())
                .start();
        assertThat(new String(blkid.getInputStream().readAllBytes(), StandardCharsets.US_ASCII).strip())
                .isEqualTo(exfat);
        assertThat(Superblock.idIn(new byte[Superblock.LENGTH])).isNull();
        assertThat(Superblock.idIn(new byte[0])).isNull();
    }

    /** The flags are set as the two file systems' specifications place them, and as dosfstools names a volume. */
    @Test
    @NeedsCommand("mkfs.vfat")
    void readsTheFlagsAVolumeIsLeftWithAndItsLabel() throws Exception {
        Superblock named = Objects.requireNonNull(made(512, "mkfs.vfat", "-F", "32", "-s", "8", "-n", "SHOW A"));
        assertThat(named.label()).isEqualTo("SHOW A");
        byte[] head = head(512, "mkfs.vfat", "-F", "32", "-s", "8");
        int second = 32 * 512 + 4;
        assertThat(Objects.requireNonNull(Superblock.of(head)).dirty()).isFalse();
        head[second + 3] &= (byte) ~0x08;
        assertThat(Objects.requireNonNull(Superblock.of(head)).dirty())
                .as("bit 27")
                .isTrue();
        head[second + 3] |= 0x08;
        head[second + 3] &= (byte) ~0x04;
        assertThat(Objects.requireNonNull(Superblock.of(head)).dirty())
                .as("bit 26")
                .isTrue();
        head[second + 3] |= 0x04;
        head[65] |= 1;
        assertThat(Objects.requireNonNull(Superblock.of(head)).dirty())
                .as("as Linux marks it")
                .isTrue();
    }

    @Test
    @NeedsCommand("mkfs.exfat")
    void readsTheFlagsOfExfat() throws Exception {
        byte[] head = head(64, "mkfs.exfat", "-c", "32K");
        for (int flag : new int[] {2, 4}) {
            head[106] = (byte) flag;
            assertThat(Objects.requireNonNull(Superblock.of(head)).dirty()).isTrue();
        }
        head[106] = 1;
        assertThat(Objects.requireNonNull(Superblock.of(head)).dirty())
                .as("the second FAT is in use")
                .isFalse();
    }

    /** Lines as Linux 6.1 wrote them when an emulated stick was pulled and plugged in again. */
    @Test
    void findsInTheKernelsLogWhatItSaidSinceTheDriveWasPluggedIn() {
        String attached = "<5>[   40.1] sd 7:0:0:0: [sdb] Attached SCSI removable disk\n";
        String dirty =
                "<4>[   41.2] FAT-fs (sdb1): Volume was not properly unmounted. Some data may be corrupt. Please run"
                        + " fsck.\n";
        assertThat(KernelLog.foundDirty(attached + dirty, "sdb", "sdb1")).isTrue();
        assertThat(KernelLog.foundDirty(attached + dirty, "sdb", "sdb2")).isFalse();
        assertThat(KernelLog.foundDirty(dirty + attached, "sdb", "sdb1"))
                .as("another drive now")
                .isFalse();
        assertThat(KernelLog.foundDirty(attached + dirty.replace("FAT-fs", "exFAT-fs"), "sdb", "sdb1"))
                .isTrue();
        assertThat(KernelLog.foundDirty("", "sdb", "sdb1")).isFalse();
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
        return Superblock.of(head(mebibytes, mkfs));
    }

    private byte[] head(int mebibytes, String... mkfs) throws IOException, InterruptedException {
        Path image = folder.resolve("image");
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(0);
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
        assertThat(head).hasSize(Superblock.LENGTH);
        return head;
    }
}

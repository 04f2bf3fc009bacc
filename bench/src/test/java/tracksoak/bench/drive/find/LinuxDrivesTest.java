package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.drive.CapturedFiles;
import tracksoak.bench.drive.find.FoundDrive.Place;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.Superblock;
import tracksoak.report.record.facts.DriveFacts;

@Timeout(60)
class LinuxDrivesTest {

    private static final long SEED = 20261125;
    private static final Duration LONG = Duration.ofSeconds(50);

    private final Answers answers = new Answers();

    private FoundDrive at(String capture, String path) throws IOException {
        return new LinuxDrives(CapturedFiles.named(capture), answers).at(path, LONG);
    }

    private List<FoundDrive> all(String capture) throws IOException {
        return new LinuxDrives(CapturedFiles.named(capture), answers).all(LONG);
    }

    @Test
    void describesAStickBehindTwoHubs() throws IOException {
        answers.rooms.put(
                "/media/crew/SHOW A/run",
                new Touch.Room("/dev/sdb1", "vfat", 61_000_000_000L, 5_000_000L, 32768, false));
        FoundDrive found = at("laptop.txt", "/media/crew/SHOW A/run");
        DriveFacts facts = found.facts();
        assertThat(found.place()).isEqualTo(Place.DRIVE);
        assertThat(found.lockKey()).isEqualTo("disk-8-16");
        assertThat(found.readOnly()).isFalse();
        assertThat(found.mounted()).isTrue();
        assertThat(facts.maker()).isEqualTo("Alder & Sons");
        assertThat(facts.model()).isEqualTo("Pocket Drive 64");
        assertThat(facts.serial()).isEqualTo("AS64-000017");
        assertThat(facts.sizeBytes()).isEqualTo(120164352L * 512);
        assertThat(facts.bus()).isEqualTo("usb");
        assertThat(facts.linkMbps()).isEqualTo(480);
        assertThat(facts.linkSuspect()).isFalse();
        assertThat(facts.removable()).isTrue();
        assertThat(facts.rotational())
                .as("over USB the kernel says spinning for sticks as well")
                .isNull();
        assertThat(facts.system()).isFalse();
        assertThat(facts.node()).isEqualTo("sdb1");
        assertThat(facts.mount()).isEqualTo("/media/crew/SHOW A");
        assertThat(facts.fileSystem()).as("too large for FAT16").isEqualTo("fat32");
        assertThat(facts.fileSystemBytes()).isEqualTo(61_000_000_000L);
        assertThat(facts.freeBytes()).isEqualTo(5_000_000L);
        assertThat(facts.clusterBytes()).isEqualTo(32768);
        assertThat(facts.temperatureC()).as("a stick tells none").isNull();
        assertThat(facts.checkByHand()).singleElement().asString().contains("cannot tell a stick");
    }

    @Test
    void followsABindMountToTheSameDrive() throws IOException {
        assertThat(at("laptop.txt", "/srv/takes/tonight").lockKey()).isEqualTo("disk-8-16");
        assertThat(at("tower.txt", "/srv/again").facts().system()).isTrue();
    }

    @Test
    void seesThroughEncryptionToTheSystemDisk() throws IOException {
        FoundDrive found = at("laptop.txt", "/stage");
        assertThat(found.facts().system()).isTrue();
        assertThat(found.facts().bus()).isEqualTo("nvme");
        assertThat(found.facts().model()).isEqualTo("Quartz 512GB");
        assertThat(found.facts().serial()).isEqualTo("QZ0000000512");
        assertThat(found.facts().temperatureC()).isEqualTo(38.85);
        assertThat(found.facts().linkMbps()).as("4 lanes of 8 GT/s").isEqualTo(32_000);
        assertThat(found.facts().node()).isEqualTo("dm-0");
        assertThat(found.lockKey()).isEqualTo("disk-259-0");
        assertThat(at("laptop.txt", "/boot/efi").facts().system()).isTrue();
    }

    @Test
    void knowsPlacesThatAreNoDrive() throws IOException {
        Map<String, Place> places = Map.of(
                "/dev/shm/x", Place.MEMORY,
                "/mnt/office/x", Place.NETWORK,
                "/mnt/crew-share", Place.NETWORK,
                "/mnt/host/a", Place.NETWORK,
                "/var/lib/box/merged/a", Place.LAYERED,
                "/proc/1", Place.KERNEL);
        for (Map.Entry<String, Place> place : places.entrySet()) {
            FoundDrive found = at("laptop.txt", place.getKey());
            assertThat(found.place()).as(place.getKey()).isEqualTo(place.getValue());
            assertThat(found.facts().sizeBytes()).isNull();
        }
        assertThat(at("tower.txt", "/mnt/ssh/a").place()).isEqualTo(Place.NETWORK);
    }

    @Test
    void readsACardThatIsLocked() throws IOException {
        FoundDrive found = at("laptop.txt", "/media/crew/CARD");
        assertThat(found.readOnly()).isTrue();
        assertThat(found.facts().bus()).isEqualTo("mmc");
        assertThat(found.facts().model()).isEqualTo("SD128");
        assertThat(found.facts().fileSystem()).isEqualTo("exfat");
        assertThat(found.facts().removable()).isTrue();
        assertThat(found.facts().linkMbps()).isNull();
        assertThat(found.facts().checkByHand()).anyMatch(hint -> hint.contains("speed class"));
    }

    @Test
    void asksTheDeviceWhatFuseblkHides() throws IOException {
        byte[] ntfs = new byte[Superblock.LENGTH];
        System.arraycopy("NTFS    ".getBytes(StandardCharsets.US_ASCII), 0, ntfs, 3, 8);
        answers.heads.put("/dev/sdc1", ntfs);
        DriveFacts facts = at("laptop.txt", "/media/crew/BIG").facts();
        assertThat(facts.fileSystem()).isEqualTo("ntfs");
        assertThat(facts.maker()).as("the bridge names no maker, the disk does").isEqualTo("Bridge");
        assertThat(facts.model()).isEqualTo("Larch HDD 2TB");
        assertThat(facts.linkMbps()).isEqualTo(5000);
        answers.heads.clear();
        assertThat(at("laptop.txt", "/media/crew/BIG").facts().fileSystem()).isNull();
        assertThat(at("laptop.txt", "/media/crew/BIG").facts().checkByHand())
                .anyMatch(hint -> hint.contains("file system's type could not be told"));
    }

    @Test
    void listsDrivesMountedOrNotTheSystemLast() throws IOException {
        List<FoundDrive> all = all("laptop.txt");
        assertThat(all)
                .extracting(drive -> drive.facts().node())
                .containsExactly("mmcblk0p1", "sdb1", "sdc1", "sdd1", "dm-0", "nvme0n1p1", "nvme0n1p2");
        FoundDrive stick = all.get(1);
        assertThat(stick.facts().mount()).as("the whole, not the bound folder").isEqualTo("/media/crew/SHOW A");
        FoundDrive ssd = all.get(3);
        assertThat(ssd.mounted()).isFalse();
        assertThat(ssd.facts().fileSystem())
                .as("as the device manager remembers")
                .isEqualTo("exfat");
        assertThat(ssd.facts().fileSystemBytes()).isEqualTo(1953521664L * 512);
        assertThat(ssd.toMount()).contains("udisksctl mount -b /dev/sdd1");
        assertThat(ssd.facts().linkMbps()).isEqualTo(10_000);
        assertThat(ssd.facts().rotational()).isFalse();
    }

    /** File systems that say all else of themselves where they are mounted lie in a partition like any other. */
    @Test
    void tellsHowTheDiskIsPartedWhateverTheFileSystem() {
        CapturedFiles files = new CapturedFiles()
                .text(MountTable.FILE, "70 1 8:17 / /m rw - ext4 /dev/sdb1 rw")
                .link("/sys/dev/block/8:17", "/sys/devices/usb2/2-1/block/sdb/sdb1")
                .text("/sys/devices/usb2/2-1/block/sdb/sdb1/partition", "1\n")
                .text("/sys/devices/usb2/2-1/block/sdb/sdb1/start", "2048\n")
                .text("/sys/devices/usb2/2-1/block/sdb/sdb1/dev", "8:17\n");
        LinuxDrives drives = new LinuxDrives(files, answers);
        assertThat(drives.at("/m/x", LONG).facts().volume().scheme()).isNull();
        byte[] head = new byte[Superblock.LENGTH];
        head[510] = 0x55;
        head[511] = (byte) 0xAA;
        answers.heads.put("/dev/sdb", head);
        assertThat(drives.at("/m/x", LONG).facts().volume().scheme()).isEqualTo("mbr");
        System.arraycopy("EFI PART".getBytes(StandardCharsets.US_ASCII), 0, head, 512, 8);
        assertThat(drives.at("/m/x", LONG).facts().volume().scheme()).isEqualTo("gpt");
        assertThat(drives.at("/m/x", LONG).facts().volume().offsetBytes()).isEqualTo(1L << 20);
        // what the device manager remembers is enough, and the disk is left alone
        answers.heads.clear();
        files.text("/run/udev/data/b8:17", "E:ID_PART_ENTRY_SCHEME=dos\nE:ID_FS_TYPE=ext4\n");
        assertThat(drives.at("/m/x", LONG).facts().volume().scheme()).isEqualTo("mbr");
        files.text("/run/udev/data/b8:17", "E:ID_FS_TYPE=ext4\n").text("/sys/devices/usb2/2-1/block/sdb/dev", "8:16\n");
        files.text("/run/udev/data/b8:16", "E:ID_PART_TABLE_TYPE=gpt\n");
        assertThat(drives.at("/m/x", LONG).facts().volume().scheme()).isEqualTo("gpt");
    }

    /** As Linux 6.18 tells of a btrfs over two loop devices, which the rig cannot make for want of its tools. */
    @Test
    void aFileSystemOverSeveralDrivesIsNoneOfThem() throws IOException {
        CapturedFiles tower = CapturedFiles.named("tower.txt");
        for (String device : List.of("sdb1", "sdf1")) {
            tower.link("/sys/fs/btrfs/9e0c/devices/" + device, "/sys/class/block/" + device);
        }
        LinuxDrives drives = new LinuxDrives(tower, answers);
        FoundDrive data = drives.at("/data", LONG);
        assertThat(data.place()).isEqualTo(Place.SPREAD);
        assertThat(data.facts().serial()).as("that of neither").isNull();
        assertThat(data.facts().node()).isNull();
        assertThat(data.facts().checkByHand()).anyMatch(hint -> hint.contains("lies on 2 disks at once (sdb, sdf)"));
        assertThat(data.lockKey()).isEqualTo("mount-0-38");
        assertThat(drives.all(LONG))
                .as("the second is no drive that waits to be mounted")
                .noneMatch(drive -> "sdf1".equals(drive.facts().node()) && !drive.mounted());
        // two parts of one drive are that drive
        tower.without("/sys/fs/btrfs/9e0c/devices/sdf1");
        tower.link("/sys/fs/btrfs/9e0c/devices/sdb2", "/sys/class/block/sdb2");
        assertThat(new LinuxDrives(tower, answers).at("/data", LONG).place()).isEqualTo(Place.DRIVE);
    }

    @Test
    void otherFileSystemsNameAllTheirDevicesThemselves() {
        for (String mount : List.of(
                "bcachefs /dev/sdx:/dev/sdy rw",
                "xfs /dev/sdx rw,attr2,inode64,logbufs=8,logdev=/dev/sdy,noquota",
                "xfs /dev/sdx rw,rtdev=/dev/sdy",
                "zfs tank rw,xattr")) {
            CapturedFiles files = new CapturedFiles()
                    .text(MountTable.FILE, "70 1 " + (mount.startsWith("xfs") ? "8:1" : "0:70") + " / /m rw - " + mount)
                    .link("/sys/dev/block/8:1", "/sys/devices/a/block/sdx");
            for (String disk : List.of("sdx", "sdy")) {
                files.text("/sys/devices/a/block/" + disk + "/size", "8192\n")
                        .link("/sys/class/block/" + disk, "/sys/devices/a/block/" + disk)
                        .text("/dev/" + disk, "");
            }
            assertThat(new LinuxDrives(files, answers).at("/m/x", LONG).place())
                    .as(mount)
                    .isEqualTo(Place.SPREAD);
        }
    }

    @Test
    void findsTheDiskUnderSubvolumesMirrorsAndOldPorts() throws IOException {
        FoundDrive data = at("tower.txt", "/data/shows\tand\\more/x");
        assertThat(data.facts().mount()).isEqualTo("/data/shows\tand\\more");
        assertThat(data.facts().fileSystem()).isEqualTo("btrfs");
        assertThat(data.lockKey()).isEqualTo("disk-8-16");
        assertThat(data.facts().linkMbps()).isEqualTo(3000);
        assertThat(data.facts().rotational()).isTrue();
        assertThat(data.facts().serial()).isEqualTo("LH4-1");
        assertThat(data.facts().temperatureC()).isEqualTo(31);
        assertThat(data.facts().maker()).as("ATA is no maker").isNull();

        FoundDrive mirror = at("tower.txt", "/mirror");
        assertThat(mirror.facts().node()).isEqualTo("md0");
        assertThat(mirror.lockKey()).isEqualTo("disk-9-0");
        assertThat(mirror.place()).isEqualTo(Place.ARRAY);
        assertThat(mirror.facts().checkByHand()).anyMatch(hint -> hint.contains("2 disks at once (sdc, sdd)"));

        FoundDrive old = at("tower.txt", "/mnt/old");
        assertThat(old.facts().linkMbps()).isEqualTo(12);
        assertThat(old.facts().linkSuspect()).isTrue();
        assertThat(old.facts().fileSystem()).as("FAT of 2 GB, width unknown").isNull();
        assertThat(old.facts().model()).as("kept as it came").isEqualTo("Mys\u001b[2Jtery\u202e");

        FoundDrive pool = at("tower.txt", "/tank/a");
        assertThat(pool.place()).isEqualTo(Place.SPREAD);
        assertThat(pool.facts().checkByHand()).singleElement().asString().contains("not told, nor how many");

        CapturedFiles unheardOf = new CapturedFiles().text(MountTable.FILE, "70 1 0:70 / /m rw - something-new it rw");
        FoundDrive unknown = new LinuxDrives(unheardOf, answers).at("/m/a", LONG);
        assertThat(unknown.facts().node()).isNull();
        assertThat(unknown.facts().system()).isNull();
        assertThat(unknown.facts().checkByHand())
                .anyMatch(hint -> hint.contains("how the drive is attached"))
                .anyMatch(hint -> hint.contains("computer runs from"));
    }

    @Test
    void aSwapFileMakesItsDiskTheSystems() throws IOException {
        CapturedFiles files = CapturedFiles.named("tower.txt");
        files.text("/proc/swaps", "Filename Type Size Used Priority\n/data/swap\\040file file 2097148 0 -2\n");
        assertThat(new LinuxDrives(files, answers).at("/data", LONG).facts().system())
                .isTrue();
    }

    @Test
    void listsNeitherMembersOfAMirrorNorTheSystemsOtherPartitions() throws IOException {
        assertThat(all("tower.txt"))
                .extracting(drive -> drive.facts().node())
                .containsExactly("md0", "sdb1", "sde", "sdf1", "sda2");
        FoundDrive unread = all("tower.txt").get(2);
        assertThat(unread.facts().fileSystem()).isNull();
        assertThat(unread.toMount())
                .as("it could not be read, so it may hold anything: never advise to erase it")
                .contains("mount it first")
                .doesNotContain("erase");
        answers.heads.put("/dev/sde", new byte[Superblock.LENGTH]);
        FoundDrive blank = all("tower.txt").get(2);
        assertThat(blank.toMount()).contains("no file system was recognised").contains("erases");
        assertThat(blank.facts().removable()).as("soldered in").isFalse();
    }

    @Test
    void takesFileSystemAndLabelFromTheDeviceManagerWhereTheDeviceCannotBeRead() throws IOException {
        CapturedFiles files = CapturedFiles.named("tower.txt")
                .text(
                        "/run/udev/data/b8:81",
                        "E:ID_FS_VERSION=FAT32\nE:ID_FS_TYPE=vfat\nE:ID_FS_LABEL=TAKES\nE:ID_FS_UUID=1A2B-3C4D\n");
        FoundDrive found = new LinuxDrives(files, answers).at("/mnt/old", LONG);
        assertThat(found.volumeId()).isEqualTo("1A2B-3C4D");
        DriveFacts facts = found.facts();
        assertThat(facts.fileSystem()).isEqualTo("fat32");
        assertThat(facts.volume().label()).isEqualTo("TAKES");
        files.text("/run/udev/data/b8:81", "E:ID_FS_VERSION=1.0\nE:ID_FS_TYPE=vfat\n");
        assertThat(new LinuxDrives(files, answers).at("/mnt/old", LONG).facts().fileSystem())
                .isNull();
    }

    @Test
    void saysHowToOpenWhatIsEncrypted() throws IOException {
        answers.heads.put("/dev/sde", "LUKS\u00ba\u00be".getBytes(java.nio.charset.StandardCharsets.ISO_8859_1));
        assertThat(all("tower.txt").get(2).toMount()).contains("udisksctl unlock -b /dev/sde");
    }

    @Test
    void claimsNoSystemDiskInAContainerThatHidesIt() throws IOException {
        FoundDrive job = at("container.txt", "/job/a");
        assertThat(job.facts().node()).isEqualTo("sda2");
        assertThat(job.facts().system()).as("it may well be").isNull();
        assertThat(at("container.txt", "/tmp").place()).isEqualTo(Place.LAYERED);
        assertThat(at("container.txt", "/").facts().system()).isTrue();
    }

    @Test
    void doesNotWaitForADriveThatHangs() throws IOException {
        CountDownLatch hang = new CountDownLatch(1);
        Touch hangs = new Touch() {
            @Override
            public Touch.@Nullable Room room(String path) {
                if (path.startsWith("/media/crew/SHOW A")) {
                    try {
                        hang.await();
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                }
                return answers.room(path);
            }

            @Override
            public byte @Nullable [] head(String device) {
                return null;
            }
        };
        FoundDrive found = new LinuxDrives(CapturedFiles.named("laptop.txt"), hangs)
                .at("/media/crew/SHOW A", Duration.ofMillis(1));
        hang.countDown();
        assertThat(found.facts().model()).isEqualTo("Pocket Drive 64");
        assertThat(found.facts().freeBytes()).isNull();
        assertThat(found.facts().checkByHand()).anyMatch(hint -> hint.contains("did not answer in time"));
    }

    @Test
    void findsNothingWhereThereIsNothing() {
        LinuxDrives nothing = new LinuxDrives(new CapturedFiles(), answers);
        assertThat(nothing.all(LONG)).isEmpty();
        assertThat(nothing.at("/x", LONG).facts().mount()).isNull();
    }

    @Test
    void whateverTheHardwareSaysOfItselfNothingBreaks() throws IOException {
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        List<String> hostile = List.of(
                "",
                "\0\0\0",
                "-1",
                "99999999999999999999999",
                "9223372036854775807",
                "1e9",
                "NaN",
                "\u001b]0;owned\u0007\u202e<script>alert(1)</script>",
                "../../../etc/passwd",
                "x".repeat(100_000),
                "8:99999999",
                "12\n480",
                "🎙".repeat(150));
        for (int round = 0; round < 200; round++) {
            CapturedFiles files = CapturedFiles.named(random.nextBoolean() ? "laptop.txt" : "tower.txt");
            for (String path : files.files()) {
                if (!path.equals(MountTable.FILE) && random.nextInt(4) == 0) {
                    files.text(path, hostile.get(random.nextInt(hostile.size())));
                }
            }
            LinuxDrives drives = new LinuxDrives(files, answers);
            List<FoundDrive> found = new ArrayList<>(drives.all(LONG));
            found.add(drives.at("/media/crew/SHOW A", LONG));
            for (FoundDrive drive : found) {
                DriveFacts facts = drive.facts();
                for (String text : Arrays.asList(
                        facts.maker(), facts.model(), facts.serial(), facts.bus(), facts.fileSystem(), facts.node())) {
                    assertThat(text == null || text.length() <= 200).isTrue();
                }
                assertThat(facts.checkByHand()).allMatch(hint -> hint.equals(hint.replaceAll("\\p{Cntrl}", "")));
                assertThat(drive.lockKey()).matches("[A-Za-z0-9-]{1,80}");
                assertThat(facts.sizeBytes() == null || facts.sizeBytes() > 0).isTrue();
                assertThat(facts.linkMbps() == null || facts.linkMbps() >= 0).isTrue();
            }
        }
    }

    /** A touch that answers from two maps. */
    private static final class Answers implements Touch {

        private final Map<String, Touch.Room> rooms = new HashMap<>();
        private final Map<String, byte[]> heads = new HashMap<>();

        @Override
        public Touch.@Nullable Room room(String path) {
            return rooms.get(path);
        }

        @Override
        public byte @Nullable [] head(String device) {
            return heads.get(device);
        }
    }
}

package tracksoak.bench.drive.io;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.CapturedFiles;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.MountTable;

class DeviceWatchTest {

    private static final String DISK = "/sys/devices/pci0000:00/0000:00:14.0/usb2/2-1/2-1:1.0/host6/block/sdb";
    private static final String MOUNTED = "70 1 8:17 / /media/crew rw,nosuid - ext4 /dev/sdb1 rw\n";

    private final CapturedFiles files = new CapturedFiles()
            .text(MountTable.FILE, MOUNTED)
            .link("/sys/dev/block/8:17", DISK + "/sdb1")
            .text(DISK + "/sdb1/partition", "1\n")
            .text(DISK + "/sdb1/ro", "0\n")
            .text(DISK + "/ro", "0\n")
            .text(DISK + "/size", "120164352\n")
            .text(DISK + "/diskseq", "14\n")
            .text(DISK + "/stat", "   120  3  4096 55  77 8  2048 99 0 40 154 0 0 0 0 3 2\n");

    private DeviceWatch watch() {
        return new DeviceWatch(files, MountTable.of(files).of("/media/crew/TRACKSOAK-1"));
    }

    @Test
    void countsTheWholeDiskInSectorsOf512AndItsWorkInMs() {
        assertThat(watch().counters()).contains(new Drive.Counters(2048 * 512, 4096 * 512, 42L, Map.of()));
    }

    @Test
    void countsNoFlushesWhereAnOldKernelDoesNot() {
        assertThat(DeviceWatch.counters("1 0 8 1 1 0 8 1 0 40 41 0 0 0 0"))
                .contains(new Drive.Counters(4096, 4096, 40L, null));
    }

    /** Behind one controller lie two buses and several hubs; a disk of the computer's own lies behind another. */
    @Test
    void countsWhatOthersBehindItsControllerMoved() {
        String hub = "/sys/devices/pci0000:00/0000:00:14.0/usb1/1-2/1-2.3/1-2.3:1.0/host7/block/sdc";
        String far = "/sys/devices/pci0000:00/0000:00:1d.0/usb3/3-1/3-1:1.0/host8/block/sdd";
        String own = "/sys/devices/pci0000:00/0000:00:17.0/ata1/host0/block/sda";
        for (String disk : new String[] {DISK, hub, far, own, "/sys/devices/virtual/block/loop0"}) {
            files.link("/sys/block/" + BlockNodes.name(disk), disk);
            if (!disk.equals(DISK)) {
                stat(disk, 1000, 2000);
            }
        }
        files.text(hub + "/diskseq", "20\n");
        Drive.Counters before = watch().counters().orElseThrow();
        assertThat(Objects.requireNonNull(before.neighbours()).values()).containsExactly(3000L * 512);
        assertThat(before.neighboursSince(before)).isZero();
        stat(hub, 1500, 2100);
        stat(far, 9000, 9000);
        stat(own, 9000, 9000);
        assertThat(watch().counters().orElseThrow().neighboursSince(before)).isEqualTo(600L * 512);
        // another drive in its place counts from nothing
        files.text(hub + "/diskseq", "21\n");
        stat(hub, 1400, 2100);
        assertThat(watch().counters().orElseThrow().neighboursSince(before)).isEqualTo(3500L * 512);
        files.without(hub).without("/sys/block/sdc");
        assertThat(watch().counters().orElseThrow().neighboursSince(before)).isZero();
    }

    @Test
    void knowsNoNeighboursOfDrivesOnNoUsbBus() {
        String disk = "/sys/devices/pci0000:00/0000:00:17.0/ata1/host0/block/sdb";
        CapturedFiles own = new CapturedFiles()
                .text(MountTable.FILE, MOUNTED)
                .link("/sys/dev/block/8:17", disk)
                .text(disk + "/stat", "0 0 8 0 0 0 8 0 0 0 0\n");
        Drive.Counters counters = new DeviceWatch(own, MountTable.of(own).of("/media/crew/x"))
                .counters()
                .orElseThrow();
        assertThat(counters.neighbours()).isNull();
        assertThat(counters.neighboursSince(counters)).isNull();
    }

    private void stat(String disk, long read, long written) {
        files.text(disk + "/stat", "1 0 " + read + " 0 1 0 " + written + " 0 0 0 0\n");
    }

    @Test
    void doesNotKnowItsWorkWhereAnOldKernelCountsNone() {
        assertThat(DeviceWatch.counters("120 3 4096 55 77 8 2048 99 0"))
                .contains(new Drive.Counters(1_048_576, 2_097_152));
    }

    @Test
    void hasNoCountersWhereTheFormIsUnknown() {
        for (String stat :
                new String[] {"", "1 2 3", "a b c d e f g", "1 2 x 4 5 6 7", "1 2 3 4 5 6 9223372036854775807"}) {
            assertThat(DeviceWatch.counters(stat)).as(stat).isEmpty();
        }
        assertThat(DeviceWatch.counters(null)).isEmpty();
    }

    @Test
    void tellsPresentFromReadOnlyFromGone() {
        DeviceWatch watch = watch();
        assertThat(watch.presence()).isEqualTo(Presence.PRESENT);
        files.text(MountTable.FILE, MOUNTED.replace("/dev/sdb1 rw", "/dev/sdb1 ro,errors=remount-ro"));
        assertThat(watch.presence()).isEqualTo(Presence.READ_ONLY);
        files.text(MountTable.FILE, MOUNTED).text(DISK + "/ro", "1\n");
        assertThat(watch.presence()).isEqualTo(Presence.READ_ONLY);
        files.text(DISK + "/ro", "0\n").text(DISK + "/sdb1/ro", "1\n");
        assertThat(watch.presence()).isEqualTo(Presence.READ_ONLY);
        files.without(DISK);
        assertThat(watch.presence()).isEqualTo(Presence.GONE);
        assertThat(watch.counters()).isEmpty();
    }

    @Test
    void aCardPulledFromItsReaderIsGone() {
        DeviceWatch watch = watch();
        files.text(DISK + "/size", "0\n");
        assertThat(watch.presence()).isEqualTo(Presence.GONE);
    }

    @Test
    void anotherDiskInTheSamePlaceIsNotOurs() {
        DeviceWatch watch = watch();
        files.text(DISK + "/diskseq", "15\n");
        assertThat(watch.presence()).isEqualTo(Presence.GONE);
    }

    @Test
    void claimsNothingWhereNothingIsKnown() {
        assertThat(new DeviceWatch(files, Optional.empty()).presence()).isEqualTo(Presence.UNKNOWN);
        DeviceWatch watch = watch();
        files.text(MountTable.FILE, "");
        assertThat(watch.presence()).as("unmounted").isEqualTo(Presence.UNKNOWN);
        files.text(MountTable.FILE, MOUNTED.replace("8:17", "8:33"));
        assertThat(watch.presence()).as("its number is another's now").isEqualTo(Presence.UNKNOWN);
        files.text(MountTable.FILE, "70 1 0:44 / /media/crew rw - fuse.thing thing rw\n");
        assertThat(new DeviceWatch(files, MountTable.of(files).of("/media/crew")).presence())
                .as("no device behind it")
                .isEqualTo(Presence.UNKNOWN);
    }
}

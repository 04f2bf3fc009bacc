package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.CapturedFiles;

/** Format of the mount table: proc(5). */
class LinuxHotplugTest {

    private static final String CAPTURE = """
            /proc/self/mountinfo = 22 1 8:1 / / rw - ext4 /dev/sda1 rw\\n90 22 8:17 / /media/me/BIG\\\\040STICK rw - exfat /dev/sdb1 rw\\n91 22 0:5 / /proc rw - proc proc rw\\nnonsense\\n
            /sys/class/block/
            /sys/class/block/sda -> /sys/devices/pci/sda
            /sys/class/block/sda1 -> /sys/devices/pci/sda/sda1
            /sys/class/block/sdb -> /sys/devices/usb/sdb
            /sys/class/block/sdb1 -> /sys/devices/usb/sdb/sdb1
            /sys/class/block/sdc -> /sys/devices/usb/sdc
            /sys/dev/block/8:1 -> /sys/devices/pci/sda/sda1
            /sys/dev/block/8:17 -> /sys/devices/usb/sdb/sdb1
            /sys/devices/pci/sda/size = 1000
            /sys/devices/pci/sda/sda1/size = 900
            /sys/devices/pci/sda/sda1/partition = 1
            /sys/devices/usb/sdb/size = 500
            /sys/devices/usb/sdb/sdb1/size = 400
            /sys/devices/usb/sdb/sdb1/partition = 1
            /sys/devices/usb/sdc/size = 0
            """;

    @Test
    void readsDevicesAndWhatIsMountedFromThem() {
        HotplugSource hotplug = new LinuxHotplug(CapturedFiles.parse(CAPTURE));
        assertThat(hotplug.known()).isTrue();
        assertThat(hotplug.devices()).containsExactlyInAnyOrder("sda", "sda1", "sdb", "sdb1");
        assertThat(hotplug.places()).hasSize(2);
        HotplugSource.Place stick =
                hotplug.of(Path.of("/media/me/BIG STICK/takes")).orElseThrow();
        assertThat(stick.mount()).isEqualTo(90);
        assertThat(stick.devices()).isEqualTo(Set.of("sdb", "sdb1"));
        assertThat(hotplug.of(Path.of("/media/me/OTHER")).orElseThrow().mount()).isEqualTo(22);
    }

    @Test
    void aSystemWithoutSuchTablesIsNotKnown() {
        assertThat(new LinuxHotplug(CapturedFiles.parse("# nothing\n")).known()).isFalse();
    }
}

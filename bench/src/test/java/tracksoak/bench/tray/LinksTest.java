package tracksoak.bench.tray;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.system.SystemFiles;

/** Paths as Linux lays them out below /sys (Documentation/ABI/testing/sysfs-bus-usb, sysfs-bus-pci). */
class LinksTest {

    private static final String USB = "/sys/devices/pci0000:00/0000:00:14.0/usb2/2-1/";

    private static final Map<String, String> REAL = Map.of(
            "sda", USB + "2-1.1/2-1.1:1.0/host6/target6:0:0/6:0:0:0/block/sda",
            "sdb1", USB + "2-1.4/2-1.4.2/2-1.4.2:1.0/host7/target7:0:0/7:0:0:0/block/sdb/sdb1",
            "sdc",
                    "/sys/devices/pci0000:00/0000:00:1d.0/0000:3b:00.0/usb4/4-2/4-2:1.0/host8/target8:0:0/8:0:0:0/block/sdc",
            "nvme0n1", "/sys/devices/pci0000:00/0000:00:1c.4/0000:04:00.0/nvme/nvme0/nvme0n1",
            "loop3", "/sys/devices/virtual/block/loop3",
            "mmcblk0", "/sys/devices/platform/soc/fe340000.mmc/mmc_host/mmc0/mmc0:aaaa/block/mmcblk0");

    private final Links links = new Links(new SystemFiles() {
        @Override
        public @Nullable String text(String path) {
            return null;
        }

        @Override
        public @Nullable String real(String path) {
            return REAL.get(path.replace("/sys/class/block/", ""));
        }

        @Override
        public List<String> names(String path) {
            return List.of();
        }
    });

    @Test
    void drivesBehindOneControllerShareItWhicheverHubsAreBetween() {
        assertThat(links.of("sda")).containsExactly("0000:00:14.0").isEqualTo(links.of("sdb1"));
    }

    @Test
    void controllersOfTheirOwnAreShared() {
        assertThat(links.of("sdc")).containsExactly("0000:3b:00.0");
        assertThat(links.of("nvme0n1")).containsExactly("0000:04:00.0");
    }

    @Test
    void ofAnythingElseItIsNotKnown() {
        assertThat(links.of("loop3")).isNull();
        assertThat(links.of("mmcblk0")).isNull();
        assertThat(links.of("sdz")).isNull();
        assertThat(links.of(null)).isNull();
        assertThat(links.of("../../etc")).isNull();
    }
}

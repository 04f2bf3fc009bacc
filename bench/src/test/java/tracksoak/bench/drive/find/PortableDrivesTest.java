package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.drive.find.FoundDrive.Place;
import tracksoak.bench.drive.system.OshiDisk;

/** Invented disks, in the form OSHI gives on Windows and macOS. */
@Timeout(60)
class PortableDrivesTest {

    private static final Duration LONG = Duration.ofSeconds(50);

    private static final List<OshiDisk> WINDOWS = List.of(
            new OshiDisk(
                    "\\\\.\\PHYSICALDRIVE0",
                    "Rowan SSD 250 (Standard disk drives)",
                    "RS1",
                    250_000_000_000L,
                    List.of(new OshiDisk.Part("Disk #0, Partition #1", "C:\\"))),
            new OshiDisk(
                    "\\\\.\\PHYSICALDRIVE1",
                    "Alder Pocket USB Device (Standard disk drives)",
                    null,
                    64_000_000_000L,
                    List.of(new OshiDisk.Part("Disk #1, Partition #0", "E:\\"))));

    private static final List<OshiDisk> MAC = List.of(
            new OshiDisk(
                    "disk0",
                    "Quartz 512",
                    "Q1",
                    500_000_000_000L,
                    List.of(new OshiDisk.Part("disk3s1s1", "/"), new OshiDisk.Part("disk3s5", "/System/Volumes/Data"))),
            new OshiDisk(
                    "disk4",
                    "Field SSD",
                    "T1",
                    1_000_000_000_000L,
                    List.of(new OshiDisk.Part("disk4s1", "/Volumes/SHOW A"))));

    private static final Map<String, Touch.Room> ROOMS = Map.of(
            "E:\\shows", new Touch.Room("STICK", "exFAT", 63_000_000_000L, 40_000_000_000L, 131072, false),
            "E:\\", new Touch.Room("STICK", "exFAT", 63_000_000_000L, 40_000_000_000L, 131072, false),
            "C:\\", new Touch.Room("", "NTFS", 249_000_000_000L, 9_000_000_000L, 4096, false),
            "/Volumes/SHOW A/x", new Touch.Room("/dev/disk4s1", "exfat", 999_000_000_000L, 5, 131072, true),
            "/Volumes/nas", new Touch.Room("//crew@nas/x", "smbfs", 9, 5, 0, false));

    private static PortableDrives windows() {
        return new PortableDrives(WINDOWS, new Rooms(), List.of("C:\\", "C:"));
    }

    private static PortableDrives mac() {
        return new PortableDrives(MAC, new Rooms(), List.of("/", "/System/Volumes/Data"));
    }

    @Test
    void describesAStickOnWindows() {
        FoundDrive found = windows().at("E:\\shows", LONG);
        assertThat(found.facts().model()).startsWith("Alder Pocket");
        assertThat(found.facts().bus()).isEqualTo("usb");
        assertThat(found.facts().system()).isFalse();
        assertThat(found.facts().mount()).isEqualTo("E:\\");
        assertThat(found.facts().fileSystem()).isEqualTo("exfat");
        assertThat(found.facts().clusterBytes()).isEqualTo(131072);
        assertThat(found.facts().freeBytes()).isEqualTo(40_000_000_000L);
        assertThat(found.facts().linkMbps()).isNull();
        assertThat(found.facts().checkByHand())
                .anyMatch(hint -> hint.contains("link speed"))
                .anyMatch(hint -> hint.contains("serial number"));
        assertThat(found.lockKey()).isEqualTo(windows().all(LONG).get(0).lockKey());
    }

    @Test
    void listsTheSystemsDriveLast() {
        assertThat(windows().all(LONG))
                .extracting(drive -> drive.facts().mount())
                .containsExactly("E:\\", "C:\\");
        assertThat(windows().all(LONG).get(1).facts().system()).isTrue();
        assertThat(mac().all(LONG)).hasSize(3);
    }

    @Test
    void matchesAMacsVolumeByItsDevice() {
        FoundDrive found = mac().at("/Volumes/SHOW A/x", LONG);
        assertThat(found.facts().serial()).isEqualTo("T1");
        assertThat(found.facts().node()).isEqualTo("disk4s1");
        assertThat(found.facts().system()).isFalse();
        assertThat(found.readOnly()).isTrue();
    }

    @Test
    void seesAShareOnAMac() {
        assertThat(mac().at("/Volumes/nas", LONG).place()).isEqualTo(Place.NETWORK);
    }

    @Test
    void knowsNothingWhenOshiDoesNot() {
        FoundDrive found = new PortableDrives(List.of(), new Rooms(), List.of("/")).at("/Volumes/SHOW A/x", LONG);
        assertThat(found.facts().system()).isNull();
        assertThat(found.facts().model()).isNull();
        assertThat(found.facts().freeBytes()).isEqualTo(5);
        assertThat(found.facts().checkByHand()).anyMatch(hint -> hint.contains("off the label"));
    }

    private static final class Rooms implements Touch {
        @Override
        public @Nullable Room room(String path) {
            return ROOMS.get(path);
        }

        @Override
        public byte @Nullable [] head(String device) {
            return null;
        }
    }
}

package tracksoak.bench.drive.system;

import java.util.List;
import org.jspecify.annotations.Nullable;
import oshi.SystemInfo;
import oshi.hardware.HWDiskStore;
import oshi.hardware.HWPartition;
import tracksoak.profiles.base.Inert;

/**
 * A disk as OSHI tells of it, for systems whose own files we do not read.
 *
 * @param name what the system calls it
 * @param model as the drive says, null if unknown
 * @param serial as the drive says, null if unknown
 * @param sizeBytes size in bytes, 0 if unknown
 * @param parts its partitions
 */
public record OshiDisk(
        String name, @Nullable String model, @Nullable String serial, long sizeBytes, List<Part> parts) {

    public OshiDisk {
        parts = List.copyOf(parts);
    }

    /**
     * A partition.
     *
     * @param id what the system calls it
     * @param mount where it is mounted, empty if it is not
     */
    public record Part(String id, String mount) {}

    /** All disks of this machine. May take long, and may touch every drive: ask through {@link TimedCall}. */
    public static List<OshiDisk> all() {
        return new SystemInfo()
                .getHardware().getDiskStores().stream().map(OshiDisk::of).toList();
    }

    private static OshiDisk of(HWDiskStore disk) {
        return new OshiDisk(
                disk.getName(),
                known(disk.getModel()),
                known(disk.getSerial()),
                disk.getSize(),
                disk.getPartitions().stream().map(OshiDisk::part).toList());
    }

    private static Part part(HWPartition part) {
        String mount = part.getMountPoint();
        return new Part(part.getIdentification(), mount == null ? "" : mount);
    }

    private static @Nullable String known(@Nullable String text) {
        return "unknown".equalsIgnoreCase(text) ? null : Inert.kept(text);
    }
}

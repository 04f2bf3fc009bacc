package tracksoak.bench.drive.system;

import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The disks this computer runs from. A disk counts if it holds one of the folders programs write to all the time, or a
 * swap: filling it would disturb the computer, and the computer would disturb the measurement.
 *
 * @param disks their folders under {@code /sys}
 * @param swaps devices swapped to, their folders under {@code /sys}
 * @param certain whether the disk of {@code /} is known, so that another disk is certainly not one of these
 */
public record SystemDisks(Set<String> disks, Set<String> swaps, boolean certain) {

    public static final Set<String> POINTS = Set.of("/", "/boot", "/boot/efi", "/efi", "/usr", "/var", "/home");

    private static final String SWAPS = "/proc/swaps";

    public SystemDisks {
        disks = Set.copyOf(disks);
        swaps = Set.copyOf(swaps);
    }

    public static SystemDisks of(SystemFiles files, MountTable table) {
        BlockNodes nodes = new BlockNodes(files);
        Set<String> disks = new HashSet<>();
        Set<String> swaps = new HashSet<>();
        for (Mount mount : table.mounts()) {
            if (POINTS.contains(mount.point())) {
                nodes.all(mount).stream().map(nodes::disks).forEach(disks::addAll);
            }
        }
        boolean certain = table.of("/").flatMap(nodes::of).isPresent();
        String text = files.text(SWAPS);
        for (String line : text == null ? new String[0] : text.split("\n", -1)) {
            String[] fields = line.strip().split("\\s+", -1);
            if (fields.length > 2 && fields[0].startsWith("/")) {
                String path = MountTable.unescape(fields[0]);
                boolean partition = fields[1].equals("partition");
                Set<String> under = partition
                        ? nodes.named(path).map(Set::of).orElse(Set.of())
                        : table.of(path).map(nodes::all).orElse(Set.of());
                if (partition) {
                    swaps.addAll(under);
                }
                under.stream().map(nodes::disks).forEach(disks::addAll);
            }
        }
        return new SystemDisks(disks, swaps, certain);
    }

    /** Whether a device lies on one of these; null if it cannot be told. */
    @Nullable
    public Boolean hold(Set<String> disksOfDevice) {
        if (disksOfDevice.stream().anyMatch(disks::contains)) {
            return true;
        }
        return certain ? false : null;
    }
}

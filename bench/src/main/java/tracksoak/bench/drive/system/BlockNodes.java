package tracksoak.bench.drive.system;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Finds block devices in Linux's {@code /sys}: from a mount to its device, from a partition to its whole disk. */
public final class BlockNodes {

    /** Sectors in {@code /sys} are always of 512 bytes (kernel documentation, block/stat). */
    public static final int SECTOR = 512;

    private static final int DEEPEST = 8;

    /** A user may mount a program's file system with any source: nothing else is looked up. */
    private static final Pattern DEVICE = Pattern.compile("/dev/[A-Za-z0-9._/+@:=-]{1,200}");

    private static final Pattern ELSEWHERE = Pattern.compile("(?:logdev|rtdev)=(/dev/[A-Za-z0-9._/+@:=-]{1,200})");
    private static final String BTRFS = "/sys/fs/btrfs";

    private final SystemFiles files;

    public BlockNodes(SystemFiles files) {
        this.files = files;
    }

    /** Folder under {@code /sys} of the device a file system lies on; empty where it lies on none. */
    public Optional<String> of(Mount mount) {
        if (!mount.device().startsWith("0:")) {
            return Optional.ofNullable(files.real("/sys/dev/block/" + mount.device()));
        }
        // btrfs has a device number of its own; the source names one of its devices
        return DEVICE.matcher(mount.source()).matches() && !mount.source().contains("..")
                ? Optional.ofNullable(files.real(mount.source())).flatMap(this::named)
                : Optional.empty();
    }

    /**
     * Folders under {@code /sys} of all devices a file system lies on: some are made over several, of which the source names
     * one (btrfs), all (bcachefs), or that with the tables (XFS with a log or audio of its own elsewhere).
     */
    public Set<String> all(Mount mount) {
        Set<String> found = new LinkedHashSet<>();
        of(mount).ifPresent(node -> {
            found.add(node);
            members(node).stream().flatMap(name -> named(name).stream()).forEach(found::add);
        });
        if (mount.type().equals("bcachefs")) {
            for (String device : mount.source().split(":", -1)) {
                named(device).ifPresent(found::add);
            }
        }
        if (mount.type().equals("xfs")) {
            Matcher elsewhere = ELSEWHERE.matcher(mount.options());
            while (elsewhere.find()) {
                named(elsewhere.group(1)).ifPresent(found::add);
            }
        }
        return found;
    }

    /** Names of the devices that a mounted btrfs lies on, by one of them. */
    private List<String> members(String node) {
        for (String id : files.names(BTRFS)) {
            List<String> names = files.names(BTRFS + "/" + id + "/devices");
            if (names.contains(name(node))) {
                return names;
            }
        }
        return List.of();
    }

    /** Folder under {@code /sys} of a device by its path or name. */
    Optional<String> named(String device) {
        return Optional.ofNullable(files.real("/sys/class/block/" + name(device)));
    }

    /**
     * The whole disk under a device: up from a partition, and down through an encrypted or mapped layer as long as it
     * lies on one device only. A device made of several stays itself.
     */
    public String disk(String node) {
        String at = node;
        for (int i = 0; i < DEEPEST; i++) {
            String next = step(at);
            if (next == null) {
                return at;
            }
            at = next;
        }
        return at;
    }

    /** All whole disks under a device, itself if nothing is below. */
    public Set<String> disks(String node) {
        Set<String> found = new LinkedHashSet<>();
        collect(node, found, 0);
        return found;
    }

    private void collect(String node, Set<String> found, int depth) {
        String disk = disk(node);
        List<String> below = files.names(disk + "/slaves");
        if (below.isEmpty() || depth >= DEEPEST) {
            found.add(disk);
        }
        if (depth < DEEPEST) {
            for (String name : below) {
                String real = files.real(disk + "/slaves/" + name);
                if (real != null) {
                    collect(real, found, depth + 1);
                }
            }
        }
    }

    private @Nullable String step(String node) {
        if (files.text(node + "/partition") != null) {
            return node.substring(0, node.lastIndexOf('/'));
        }
        List<String> below = files.names(node + "/slaves");
        return below.size() == 1 ? files.real(node + "/slaves/" + below.get(0)) : null;
    }

    /** Last part of a path. */
    public static String name(String path) {
        return path.substring(path.lastIndexOf('/') + 1);
    }
}

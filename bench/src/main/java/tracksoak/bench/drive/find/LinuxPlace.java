package tracksoak.bench.drive.find;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.KernelLog;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.Superblock;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.DriveFacts;

/** Where a drive is plugged in and how its volume lies on it, by Linux's own files; nothing here touches the drive. */
final class LinuxPlace {

    private static final Pattern PORT = Pattern.compile("[0-9]+-[0-9]+(\\.[0-9]+)*");
    private static final Pattern HEXES = Pattern.compile("[0-9a-f]{4}");
    private static final int MOST_BESIDES = 20;

    private final SystemFiles files;

    LinuxPlace(SystemFiles files) {
        this.files = files;
    }

    /** Of a disk by its folder under {@code /sys}, links resolved. */
    DriveFacts.Port port(String disk) {
        String device = null;
        String driver = null;
        for (int slash = disk.lastIndexOf('/'); slash > 0 && device == null; slash = disk.lastIndexOf('/', slash - 1)) {
            String at = disk.substring(0, slash);
            if (files.text(at + "/idVendor") != null) {
                device = at;
            } else if (driver == null && files.text(at + "/bInterfaceNumber") != null) {
                driver = files.real(at + "/driver");
            }
        }
        String firmware = Inert.kept(files.text(disk + "/device/rev"));
        if (device == null) {
            String plain = Inert.kept(files.text(disk + "/device/firmware_rev"));
            return new DriveFacts.Port(null, firmware == null ? plain : firmware, null, null, List.of());
        }
        String vendor = files.word(device + "/idVendor");
        String product = files.word(device + "/idProduct");
        boolean known = vendor != null
                && product != null
                && HEXES.matcher(vendor).matches()
                && HEXES.matcher(product).matches();
        String port = BlockNodes.name(device);
        return new DriveFacts.Port(
                known ? vendor + ":" + product : null,
                firmware,
                driver == null ? null : Inert.kept(BlockNodes.name(driver)),
                PORT.matcher(port).matches() ? port : null,
                besides(device, port));
    }

    /** What hangs on the same hub. */
    private List<String> besides(String device, String port) {
        String hub = device.substring(0, device.lastIndexOf('/'));
        List<String> names = new ArrayList<>();
        for (String name : files.names(hub)) {
            if (names.size() < MOST_BESIDES && PORT.matcher(name).matches() && !name.equals(port)) {
                String product = Inert.kept(files.text(hub + "/" + name + "/product"));
                names.add(product == null ? "port " + name : product);
            }
        }
        return names;
    }

    /** Of a volume by its folder under {@code /sys}. */
    DriveFacts.Volume volume(
            String node,
            String disk,
            @Nullable Mount mount,
            @Nullable Superblock superblock,
            byte @Nullable [] diskHead) {
        boolean part = files.text(node + "/partition") != null;
        // how what is unlocked or mapped lies on the disk is told by neither
        boolean mapped = !files.names(node + "/slaves").isEmpty();
        Long start = part ? files.number(node + "/start") : null;
        return new DriveFacts.Volume(
                part ? scheme(node, disk, diskHead) : mapped ? null : "none",
                part ? offset(start) : mapped ? null : (Long) 0L,
                Inert.kept(superblock == null ? remembered(node, "ID_FS_LABEL") : superblock.label()),
                dirty(node, disk, mount, superblock),
                mount == null ? null : options(mount));
    }

    /**
     * A property of a device that the system's device manager remembers, null if it does not. The device is not touched.
     *
     * @param node its folder under {@code /sys}
     */
    @Nullable
    String remembered(String node, String property) {
        String numbers = files.word(node + "/dev");
        String text = numbers == null ? null : files.text("/run/udev/data/b" + numbers);
        String begin = "E:" + property + "=";
        for (String line : text == null ? new String[0] : text.split("\n", -1)) {
            if (line.startsWith(begin)) {
                return line.substring(begin.length()).strip();
            }
        }
        return null;
    }

    private static @Nullable Long offset(@Nullable Long start) {
        return start == null || start < 0 || start > Long.MAX_VALUE / BlockNodes.SECTOR
                ? null
                : (Long) (start * BlockNodes.SECTOR);
    }

    /**
     * While a volume is mounted for writing it is marked by whoever mounted it: FAT by Linux all the time, exFAT from a write
     * to the next sync. What it was before only the kernel's log tells, and of a file system served by a program nothing does.
     */
    private @Nullable Boolean dirty(String node, String disk, @Nullable Mount mount, @Nullable Superblock superblock) {
        String log = files.kernelLog();
        boolean logged = log != null && KernelLog.foundDirty(log, BlockNodes.name(disk), BlockNodes.name(node));
        if (logged && mount != null) {
            return true;
        }
        if (superblock == null || !Boolean.TRUE.equals(superblock.dirty())) {
            return superblock == null ? null : superblock.dirty();
        }
        if (mount == null || mount.readOnly()) {
            return true;
        }
        boolean told =
                log != null && (mount.type().equals("vfat") || mount.type().equals("exfat"));
        return told ? (Boolean) false : null;
    }

    /** How the disk is parted by what the system's device manager remembers of it; null if it does not, or is not told here. */
    @Nullable
    String rememberedScheme(String node, String disk) {
        String of = remembered(node, "ID_PART_ENTRY_SCHEME");
        String word = of == null ? remembered(disk, "ID_PART_TABLE_TYPE") : of;
        return "dos".equals(word) ? "mbr" : "gpt".equals(word) ? "gpt" : null;
    }

    private @Nullable String scheme(String node, String disk, byte @Nullable [] head) {
        String read = scheme(head);
        return read == null ? rememberedScheme(node, disk) : read;
    }

    private static @Nullable String scheme(byte @Nullable [] head) {
        if (head == null || head.length < 1024) {
            return null;
        }
        boolean gpt = new String(head, 512, 8, java.nio.charset.StandardCharsets.ISO_8859_1).equals("EFI PART")
                || (head.length >= 4104
                        && new String(head, 4096, 8, java.nio.charset.StandardCharsets.ISO_8859_1).equals("EFI PART"));
        boolean mbr = (head[510] & 0xFF) == 0x55 && (head[511] & 0xFF) == 0xAA;
        return gpt ? "gpt" : mbr ? "mbr" : null;
    }

    private @Nullable String options(Mount mount) {
        String table = files.text("/proc/self/mounts");
        String found = null;
        for (String line : table == null ? new String[0] : table.split("\n", -1)) {
            String[] fields = line.split(" ", -1);
            if (fields.length >= 4 && fields[0].equals(mount.source()) && fields[2].equals(mount.type())) {
                found = fields[3];
            }
        }
        return found == null ? null : Inert.kept(found);
    }
}

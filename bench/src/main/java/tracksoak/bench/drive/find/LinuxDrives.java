package tracksoak.bench.drive.find;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive.Place;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.Superblock;
import tracksoak.bench.drive.system.SystemDisks;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.profiles.base.Inert;

/** Finds drives by Linux's own files; asks the drives themselves only for room and, where needed, their first bytes. */
final class LinuxDrives {

    /** Devices nobody records on: memory, optical drives, floppies, boot areas of memory chips. */
    private static final Pattern NEVER = Pattern.compile("(ram|zram|sr|fd)\\d+|mmcblk\\d+(boot\\d+|rpmb|gp\\d+)");

    private static final Set<String> IMAGES = Set.of("squashfs", "erofs", "iso9660", "udf");
    private static final long SMALLEST = 1 << 20;

    /** File systems that say whether they were unmounted in order. */
    private static final Set<String> FLAGGED = Set.of("vfat", "exfat");

    private final SystemFiles files;
    private final Touch touch;
    private final BlockNodes nodes;

    LinuxDrives(SystemFiles files, Touch touch) {
        this.files = files;
        this.touch = touch;
        this.nodes = new BlockNodes(files);
    }

    /**
     * The drive a path lies on.
     *
     * @param path absolute, links resolved
     * @param limit how long the drive may take to answer
     */
    FoundDrive at(String path, Duration limit) {
        MountTable table = MountTable.of(files);
        Optional<Mount> mount = table.of(path);
        String node = mount.flatMap(nodes::of).orElse(null);
        return found(List.of(new Candidate(mount.orElse(null), node, path)), table, limit)
                .get(0);
    }

    /**
     * All drives, mounted or not, those the system runs from last.
     *
     * @param limit how long the drives together may take to answer
     */
    List<FoundDrive> all(Duration limit) {
        MountTable table = MountTable.of(files);
        SystemDisks system = SystemDisks.of(files, table);
        Map<String, Candidate> byNode = new HashMap<>();
        Set<String> mounted = new HashSet<>();
        for (Mount mount : table.mounts()) {
            String node = nodes.of(mount).orElse(null);
            if (node == null) {
                continue;
            }
            mounted.addAll(nodes.all(mount));
            if (!IMAGES.contains(mount.type())) {
                byNode.merge(node, new Candidate(mount, node, mount.point()), Candidate::better);
            }
        }
        for (String name : files.names("/sys/class/block")) {
            String node = files.real("/sys/class/block/" + name);
            if (node != null && !mounted.contains(node) && usable(name, node, system)) {
                byNode.put(node, new Candidate(null, node, ""));
            }
        }
        List<FoundDrive> found = new ArrayList<>(found(List.copyOf(byNode.values()), table, limit));
        found.sort(FoundDrive.SYSTEM_LAST);
        return found;
    }

    private boolean usable(String name, String node, SystemDisks system) {
        Long sectors = files.number(node + "/size");
        return !NEVER.matcher(name).matches()
                && sectors != null
                && sectors >= SMALLEST / BlockNodes.SECTOR
                && files.names(node + "/holders").isEmpty()
                && files.names(node).stream().noneMatch(child -> files.text(node + "/" + child + "/partition") != null)
                && !system.swaps().contains(node)
                && !Boolean.TRUE.equals(system.hold(nodes.disks(node)));
    }

    private List<FoundDrive> found(List<Candidate> candidates, MountTable table, Duration limit) {
        SystemDisks system = SystemDisks.of(files, table);
        List<Callable<Answer>> questions = new ArrayList<>();
        candidates.forEach(candidate -> questions.add(() -> ask(candidate)));
        List<Optional<Answer>> answers = TimedCall.together(limit, "ask a drive for its room", questions);
        List<FoundDrive> found = new ArrayList<>();
        for (int i = 0; i < candidates.size(); i++) {
            found.add(compose(candidates.get(i), answers.get(i).orElse(null), system));
        }
        return found;
    }

    private Answer ask(Candidate candidate) {
        Mount mount = candidate.mount();
        Touch.Room room = candidate.path().isEmpty() ? null : touch.room(candidate.path());
        boolean open = mount == null || FileSystemNames.word(mount.type(), null, 0) == null;
        boolean flagged = open || FLAGGED.contains(mount == null ? "" : mount.type());
        String node = candidate.node();
        byte[] head = flagged && node != null ? touch.head("/dev/" + device(node)) : null;
        String disk = node == null ? null : nodes.disk(node);
        byte[] whole = node != null && disk != null && !disk.equals(node) && (flagged || !tellsScheme(node, disk))
                ? touch.head("/dev/" + device(disk))
                : null;
        return new Answer(
                room,
                head != null && head.length > 0,
                node == null || head == null ? null : superblock("/dev/" + device(node), head),
                head == null ? null : Superblock.idIn(head),
                whole,
                disk == null ? null : new LinuxHardware(files).temperatureC(disk));
    }

    /** Whether how the disk is parted is known without asking it. */
    private boolean tellsScheme(String node, String disk) {
        return files.text(node + "/partition") == null || new LinuxPlace(files).rememberedScheme(node, disk) != null;
    }

    private @Nullable Superblock superblock(String device, byte[] head) {
        Superblock found = Superblock.of(head);
        long rootAt = Superblock.exfatRootAt(head);
        byte[] root = rootAt > 0 ? touch.part(device, rootAt) : null;
        return found == null || root == null ? found : found.labelled(root);
    }

    private FoundDrive compose(Candidate candidate, @Nullable Answer answer, SystemDisks system) {
        Mount mount = candidate.mount();
        String node = candidate.node();
        Set<String> disks = new LinkedHashSet<>();
        Set<String> devices = mount == null ? Set.of() : nodes.all(mount);
        (devices.isEmpty() && node != null ? Set.of(node) : devices)
                .forEach(device -> disks.addAll(nodes.disks(device)));
        Place place = place(mount, devices, disks);
        // of several none is the drive
        String disk = node == null || place == Place.SPREAD ? null : nodes.disk(node);
        FactsDraft draft = new FactsDraft(disk == null ? Hardware.unknown() : new LinuxHardware(files).of(disk), place);
        if (disks.size() > 1) {
            draft.hint("The file system lies on " + disks.size() + " disks at once ("
                    + disks.stream().map(BlockNodes::name).map(Inert::text).collect(Collectors.joining(", "))
                    + "): their figures and counters are not told one by one.");
        }
        if (place == Place.SPREAD && disks.size() < 2) {
            draft.hint("Which drives the file system lies on is not told, nor how many.");
        }
        draft.node = node == null || place == Place.SPREAD ? null : BlockNodes.name(node);
        draft.mount = mount == null ? null : mount.point();
        draft.system = system(mount, disks.isEmpty() ? null : disks, system);
        draft.answered = answer != null;
        draft.room = answer == null ? null : answer.room();
        draft.temperatureC = answer == null ? null : answer.temperatureC();
        Superblock superblock = answer == null ? null : answer.superblock();
        String found = superblock != null ? superblock.type() : node == null ? null : remembered(node);
        draft.clusterBytes = superblock == null ? 0 : superblock.clusterBytes();
        if (node != null && disk != null) {
            LinuxPlace at = new LinuxPlace(files);
            draft.port = at.port(disk);
            draft.volume = at.volume(node, disk, mount, superblock, answer == null ? null : answer.diskHead());
        }
        draft.partBytes = node == null ? 0 : bytes(node);
        draft.fileSystem = mount == null ? found : FileSystemNames.word(mount.type(), found, draft.fileSystemBytes());
        boolean readOnly = (mount != null && mount.readOnly())
                || (draft.room != null && draft.room.readOnly())
                || (node != null && refuses(node))
                || (disk != null && refuses(disk));
        return new FoundDrive(
                place,
                draft.facts(),
                lockKey(disk, mount),
                readOnly,
                mount == null && node != null
                        ? toMount("/dev/" + device(node), found, answer != null && answer.read())
                        : null,
                volumeId(node, answer));
    }

    private static Place place(@Nullable Mount mount, Set<String> devices, Set<String> disks) {
        Place place = mount == null ? Place.DRIVE : FileSystemNames.place(mount.type());
        if (place != Place.DRIVE || disks.size() < 2) {
            return place;
        }
        return devices.size() > 1 ? Place.SPREAD : Place.ARRAY;
    }

    private @Nullable String volumeId(@Nullable String node, @Nullable Answer answer) {
        if (answer != null && answer.volumeId() != null) {
            return answer.volumeId();
        }
        return node == null ? null : Inert.kept(new LinuxPlace(files).remembered(node, "ID_FS_UUID"));
    }

    /** What the system's device manager remembers of a device's file system, without touching the device. */
    private @Nullable String remembered(String node) {
        LinuxPlace place = new LinuxPlace(files);
        String type = Objects.requireNonNullElse(place.remembered(node, "ID_FS_TYPE"), "");
        String version = Objects.requireNonNullElse(place.remembered(node, "ID_FS_VERSION"), "")
                .toLowerCase(Locale.ROOT);
        return switch (type) {
            case "" -> null;
            case "crypto_LUKS" -> "luks";
            case "LVM2_member" -> "lvm";
            case "vfat" -> version.matches("fat(12|16|32)") ? version : FileSystemNames.word(type, null, bytes(node));
            default -> FileSystemNames.word(type, null, bytes(node));
        };
    }

    private boolean refuses(String device) {
        return Long.valueOf(1).equals(files.number(device + "/ro"));
    }

    private long bytes(String node) {
        Long sectors = files.number(node + "/size");
        return sectors == null || sectors < 0 || sectors > Long.MAX_VALUE / BlockNodes.SECTOR
                ? 0
                : sectors * BlockNodes.SECTOR;
    }

    private static @Nullable Boolean system(@Nullable Mount mount, @Nullable Set<String> disks, SystemDisks system) {
        if (mount != null && SystemDisks.POINTS.contains(mount.point())) {
            return true;
        }
        return disks == null ? null : system.hold(disks);
    }

    private String lockKey(@Nullable String disk, @Nullable Mount mount) {
        String numbers = disk == null ? null : files.word(disk + "/dev");
        return numbers != null && numbers.matches("\\d+:\\d+")
                ? "disk-" + numbers.replace(':', '-')
                : "mount-" + (mount == null ? "none" : mount.device().replace(':', '-'));
    }

    private static String toMount(String device, @Nullable String type, boolean read) {
        if (type == null && read) {
            return "not mounted, and no file system was recognised on it: if it is meant to be empty, format it"
                    + " (this erases it), then mount it";
        }
        return switch (type == null ? "" : type) {
            case "luks" -> "encrypted: unlock it first, for example with \"udisksctl unlock -b " + device + "\"";
            case "lvm" -> "part of a volume group: activate it first, for example with \"vgchange -ay\"";
            default -> "not mounted: mount it first, for example with \"udisksctl mount -b " + device + "\"";
        };
    }

    /** Device name as under {@code /dev}; the kernel writes a slash in it as an exclamation mark. */
    private static String device(String node) {
        return BlockNodes.name(node).replace('!', '/');
    }

    /**
     * @param mount where it is mounted, null if it is not
     * @param node its folder under {@code /sys}, null if there is none
     * @param path a path on it, empty if it is not mounted
     */
    private record Candidate(
            @Nullable Mount mount, @Nullable String node, String path) {

        /** Of two mounts of one device the whole one, then the one with the shorter name. */
        Candidate better(Candidate other) {
            return rank() <= other.rank() ? this : other;
        }

        private int rank() {
            return (mount != null && mount.root().equals("/") ? 0 : 1 << 20) + path.length();
        }
    }

    /**
     * @param room what the file system said, null if it is not mounted or said nothing
     * @param read whether the device's first bytes could be read
     * @param superblock what they told, null if nothing
     * @param volumeId what they told of the volume's id, null if nothing
     * @param diskHead the first bytes of the whole disk, null if not asked
     * @param temperatureC the disk's own, in °C, null if it tells none
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Answer(
            Touch.@Nullable Room room,
            boolean read,
            @Nullable Superblock superblock,
            @Nullable String volumeId,
            byte @Nullable [] diskHead,
            @Nullable Double temperatureC) {}
}

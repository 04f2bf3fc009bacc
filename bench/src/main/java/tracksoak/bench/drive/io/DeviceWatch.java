package tracksoak.bench.drive.io;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.PortTree;
import tracksoak.bench.drive.system.SystemFiles;

/**
 * Watches one mounted device through the system's own files, never through the drive. Any thread.
 *
 * <p>Gone is: the node has left {@code /sys}, another disk has taken its place, or its size is 0, as with a card pulled
 * out of its reader.
 */
final class DeviceWatch {

    private static final String RELEASE = "/proc/sys/kernel/osrelease";

    /** Linux 5.0 to 5.6 count of a long request its beginning and its end only (commit 2b8bd423614c of 5.7 in the kernel's history). */
    private static final Pattern COUNTS_TOO_LITTLE = Pattern.compile("5\\.[0-6](?!\\d)");

    private final SystemFiles files;
    private final @Nullable Mount mount;
    private final @Nullable String node;
    private final @Nullable String disk;
    private final @Nullable String sequence;
    private final boolean exact;

    DeviceWatch(SystemFiles files, Optional<Mount> mount) {
        this.files = files;
        BlockNodes nodes = new BlockNodes(files);
        this.mount = mount.orElse(null);
        this.node = mount.flatMap(nodes::of).orElse(null);
        this.disk = node == null ? null : nodes.disk(node);
        this.exact =
                !COUNTS_TOO_LITTLE.matcher(String.valueOf(files.text(RELEASE))).lookingAt();
        this.sequence = disk == null ? null : files.word(disk + "/diskseq");
    }

    /** The whole disk's counters, empty where there are none. */
    Optional<Counters> counters() {
        return disk == null
                ? Optional.empty()
                : counters(files.text(disk + "/stat"))
                        .map(own -> new Counters(own.bytesWritten(), own.bytesRead(), own.busyMs(), neighbours(disk)));
    }

    private @Nullable Map<String, Long> neighbours(String of) {
        List<String> all = PortTree.usbNeighbours(files, of);
        if (all == null) {
            return null;
        }
        Map<String, Long> bytes = new HashMap<>();
        for (String one : all) {
            // the number tells one drive from the next that gets its name
            String name = one + " " + files.word(one + "/diskseq");
            counters(files.text(one + "/stat")).ifPresent(its -> bytes.put(name, its.bytesWritten() + its.bytesRead()));
        }
        return bytes;
    }

    /**
     * What the device took and gave, and how long it was at it, from the text of its {@code stat} file (Linux,
     * Documentation/block/stat.rst); empty if it has not the form.
     */
    static Optional<Counters> counters(@Nullable String stat) {
        if (stat == null) {
            return Optional.empty();
        }
        String[] fields = stat.strip().split("\\s+", -1);
        try {
            return fields.length < 7
                    ? Optional.empty()
                    : Optional.of(new Counters(
                            Math.multiplyExact(Long.parseLong(fields[6]), BlockNodes.SECTOR),
                            Math.multiplyExact(Long.parseLong(fields[2]), BlockNodes.SECTOR),
                            busyMs(fields),
                            null));
        } catch (ArithmeticException | NumberFormatException e) {
            return Optional.empty();
        }
    }

    /** Time in which the device had work, in ms; below 0 where the kernel does not tell exactly. */
    long busyMs() {
        String stat = exact && disk != null ? files.text(disk + "/stat") : null;
        Long ms = counters(stat).map(Counters::busyMs).orElse(null);
        return ms == null ? -1 : ms;
    }

    /** Time with requests under way, and that of flushes, which the kernel counts apart since 5.5: at most the sum. */
    private static @Nullable Long busyMs(String[] fields) {
        if (fields.length < 10) {
            return null;
        }
        long flushing = fields.length < 17 ? 0 : Long.parseLong(fields[16]);
        return Math.addExact(Long.parseLong(fields[9]), flushing);
    }

    Presence presence() {
        if (mount == null) {
            return Presence.UNKNOWN;
        }
        if (disk != null) {
            Long sectors = files.number(disk + "/size");
            if (sectors == null || sectors == 0 || !Objects.equals(sequence, files.word(disk + "/diskseq"))) {
                return Presence.GONE;
            }
            if (refusesWrites(disk) || refusesWrites(node)) {
                return Presence.READ_ONLY;
            }
        }
        Optional<Mount> now = MountTable.of(files).now(mount);
        if (now.isPresent() && now.get().readOnly()) {
            return Presence.READ_ONLY;
        }
        return disk == null || now.isEmpty() ? Presence.UNKNOWN : Presence.PRESENT;
    }

    private boolean refusesWrites(@Nullable String device) {
        return device != null && Objects.equals(files.number(device + "/ro"), 1L);
    }
}

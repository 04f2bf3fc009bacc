package tracksoak.bench.volume;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/**
 * Reads FAT32. Source: Microsoft, FAT: General Overview of On-Disk Format, version 1.03. Of FAT12 and FAT16, which differ in
 * the width of the table, it says that it does not read them. Confined to one thread.
 */
final class Fat32 {

    private static final int FEWEST_CLUSTERS = 65_525;
    /** Longest folder: 65,536 entries. */
    private static final long LONGEST_FOLDER = 65_536L * Folder.ENTRY;

    private static final int LONG_NAME = 0x0F;
    private static final int LABEL = 0x08;
    private static final int FOLDER = 0x10;
    private static final int[] LONG_NAME_AT = {1, 3, 5, 7, 9, 14, 16, 18, 20, 22, 24, 28, 30};
    private static final Charset OLD_LETTERS =
            Charset.isSupported("IBM437") ? Charset.forName("IBM437") : StandardCharsets.ISO_8859_1;

    private final ByteSource source;
    private final Partition partition;
    private final Bytes boot;
    private final Tree tree = new Tree();
    private final int sectorBytes;
    private final int clusterBytes;
    private final long clusters;
    private final List<Extent> tables = new ArrayList<>();
    private final Extent heap;
    private final ClusterTable table;
    private String label = "";

    Fat32(ByteSource source, Partition partition, Bytes boot) {
        this.source = source;
        this.partition = partition;
        this.boot = boot;
        sectorBytes = boot.u16(11);
        clusterBytes = sectorBytes * boot.u8(13);
        int copies = boot.u8(16);
        long reserved = boot.u16(14);
        long tableSectors = boot.u16(22) != 0 ? boot.u16(22) : boot.u32(36);
        long rootSectors = (boot.u16(17) * 32L + sectorBytes - 1) / sectorBytes;
        long sectors = boot.u16(19) != 0 ? boot.u16(19) : boot.u32(32);
        long dataSector = reserved + copies * tableSectors + rootSectors;
        long found = (sectors - dataSector) / boot.u8(13);
        if (found < FEWEST_CLUSTERS && boot.u16(17) != 0) {
            throw new Problem(
                    Problem.Kind.REFUSED,
                    "This volume cannot be read",
                    found < 4085 ? "FAT12" : "FAT16",
                    "only FAT32 and exFAT are",
                    "");
        }
        long inTable = tableSectors * sectorBytes / 4 - 2;
        if (tableSectors == 0 || found <= 0 || inTable <= 0) {
            throw VolumeReader.damaged("its first sector counts " + found + " clusters");
        }
        if (inTable < found) {
            tree.trouble("The allocation table has no room for all clusters.");
        }
        if (partition.lengthBytes() < sectors * sectorBytes) {
            tree.trouble("The volume says that it is longer than the room it lies in.");
        }
        clusters = Math.min(found, inTable);
        if (clusters > ClusterTable.MOST_CLUSTERS) {
            throw VolumeReader.tooLarge(clusters);
        }
        tables(copies, reserved, tableSectors);
        heap = new Extent(partition.startByte() + dataSector * sectorBytes, clusters * clusterBytes);
        table = new ClusterTable(source, tables.get(0), heap, clusterBytes, clusters, ClusterTable.Width.FAT32, tree);
    }

    private void tables(int copies, long reserved, long tableSectors) {
        int flags = boot.u16(40);
        int active = (flags & 0x80) == 0 ? 0 : Math.min(flags & 0x0F, copies - 1);
        for (int i = 0; i < copies; i++) {
            Extent one = new Extent(
                    partition.startByte() + (reserved + i * tableSectors) * sectorBytes, tableSectors * sectorBytes);
            tables.add(i == active ? 0 : tables.size(), one);
        }
    }

    Volume read() throws IOException {
        long state = table.next(1);
        int bootState = boot.u8(65);
        tree.walk(table.chain(boot.u32(44) & 0x0FFF_FFFFL, LONGEST_FOLDER, "/"), this::folder);
        return new Volume(
                partition,
                "fat32",
                label.isEmpty() ? bootLabel() : label,
                clusterBytes,
                clusters,
                tables,
                heap,
                List.of(),
                (state & 0x0800_0000L) == 0 || (bootState & 1) != 0,
                (state & 0x0400_0000L) == 0 || (bootState & 2) != 0,
                tree.files(),
                table.shared(tree.files()),
                tree.troubles());
    }

    private String bootLabel() {
        String kept = shortText(71, 11).strip();
        return boot.u8(66) == 0x29 && !kept.equals("NO NAME") ? kept : "";
    }

    private String shortText(int at, int length) {
        byte[] raw = new byte[length];
        for (int i = 0; i < length; i++) {
            raw[i] = (byte) boot.u8(at + i);
        }
        return new String(raw, OLD_LETTERS);
    }

    private void folder(Tree.Visit visit) throws IOException {
        Folder entries = new Folder(source, visit.extents());
        LongName longName = new LongName();
        while (entries.next()) {
            int first = entries.u8(0);
            int attributes = entries.u8(11);
            if (first == 0) {
                return;
            }
            if (first == 0xE5) {
                longName.forget();
            } else if ((attributes & LONG_NAME) == LONG_NAME) {
                longName.take(entries);
            } else if ((attributes & LABEL) != 0) {
                if (visit.depth() == 0) {
                    label = raw(entries, 0, 11).strip();
                }
                longName.forget();
            } else {
                String name = longName.of(entries, shortName(entries));
                if (first != '.' && !one(visit, entries, name, (attributes & FOLDER) != 0)) {
                    return;
                }
                longName.forget();
            }
        }
    }

    /** Takes a file or a folder; false if there are too many. */
    private boolean one(Tree.Visit visit, Folder entries, String name, boolean isFolder) throws IOException {
        String path = Tree.path(visit.path(), name);
        long first = ((long) entries.u16(20) << 16 | entries.u16(26)) & 0x0FFF_FFFFL;
        long size = entries.u32(28);
        List<Extent> extents = first == 0 && (size == 0 || isFolder)
                ? List.of()
                : isFolder ? table.chain(first, LONGEST_FOLDER, path) : table.file(first, size, path);
        long allocated = extents.stream().mapToLong(Extent::lengthBytes).sum();
        if (!isFolder && allocated < size) {
            tree.trouble(Inert.quoted(path) + " has clusters for " + allocated + " of its " + size + " bytes.");
        }
        long length = isFolder ? allocated : size;
        return tree.add(visit, new VolumeFile(path, isFolder, length, length, extents, entries.entryByte()));
    }

    private static String raw(Folder entries, int at, int length) {
        byte[] bytes = new byte[length];
        for (int i = 0; i < length; i++) {
            bytes[i] = (byte) entries.u8(at + i);
        }
        if (at == 0 && bytes[0] == 0x05) {
            bytes[0] = (byte) 0xE5;
        }
        return new String(bytes, OLD_LETTERS);
    }

    private static String shortName(Folder entries) {
        int small = entries.u8(12);
        String base = raw(entries, 0, 8).stripTrailing();
        String end = raw(entries, 8, 3).stripTrailing();
        base = (small & 0x08) != 0 ? base.toLowerCase(Locale.ROOT) : base;
        end = (small & 0x10) != 0 ? end.toLowerCase(Locale.ROOT) : end;
        return end.isEmpty() ? base : base + "." + end;
    }

    /** A long name on its way: its pieces stand before the entry, the last piece first. */
    private static final class LongName {
        private final StringBuilder name = new StringBuilder();
        private int expected;
        private int checksum;

        void forget() {
            name.setLength(0);
            expected = 0;
        }

        void take(Folder entries) {
            int order = entries.u8(0);
            if ((order & 0x40) != 0) {
                forget();
                expected = order & 0x1F;
                checksum = entries.u8(13);
            }
            if (expected == 0 || (order & 0x1F) != expected || entries.u8(13) != checksum) {
                forget();
                return;
            }
            expected--;
            StringBuilder piece = new StringBuilder();
            for (int at : LONG_NAME_AT) {
                char letter = (char) entries.u16(at);
                if (letter == 0) {
                    break;
                }
                piece.append(letter);
            }
            name.insert(0, piece);
            if (expected == 0) {
                expected = -1;
            }
        }

        String of(Folder entries, String shortName) {
            int sum = 0;
            for (int i = 0; i < 11; i++) {
                sum = (((sum & 1) << 7) + (sum >> 1) + entries.u8(i)) & 0xFF;
            }
            return expected == -1 && sum == checksum && name.length() > 0 ? name.toString() : shortName;
        }
    }
}

package tracksoak.bench.volume;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;

/** Reads exFAT. Source: Microsoft, exFAT file system specification, revision 1.00. Confined to one thread. */
final class Exfat {

    private static final int LARGEST_CLUSTER_SHIFT = 25;
    private static final long LONGEST_FOLDER = 256L << 20;
    private static final int FOLDER = 0x10;
    private static final int NO_CHAIN = 0x02;
    private static final int BITMAP = 0x81;
    private static final int LABEL = 0x83;
    private static final int FILE = 0x85;
    private static final int STREAM = 0xC0;
    private static final int NAME = 0xC1;
    private static final int NAME_PIECE = 15;

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
    private List<Extent> bitmap = List.of();

    Exfat(ByteSource source, Partition partition, Bytes boot) {
        this.source = source;
        this.partition = partition;
        this.boot = boot;
        int sectorShift = boot.u8(108);
        int clusterShift = sectorShift + boot.u8(109);
        int copies = boot.u8(110);
        if (sectorShift < 9 || sectorShift > 12 || clusterShift > LARGEST_CLUSTER_SHIFT || copies < 1 || copies > 2) {
            throw VolumeReader.damaged("its first sector has sectors of 2^" + sectorShift + " and clusters of 2^"
                    + clusterShift + " bytes, and " + copies + " tables");
        }
        sectorBytes = 1 << sectorShift;
        clusterBytes = 1 << clusterShift;
        long tableStart = partition.startByte() + boot.u32(80) * sectorBytes;
        long tableLength = boot.u32(84) * sectorBytes;
        int active = Math.min(boot.u16(106) & 1, copies - 1);
        for (int i = 0; i < copies; i++) {
            tables.add(i == active ? 0 : tables.size(), new Extent(tableStart + i * tableLength, tableLength));
        }
        long said = boot.u32(92);
        long inTable = tableLength / 4 - 2;
        long heapStart = boot.u32(88) * sectorBytes;
        long fitting = (partition.lengthBytes() - heapStart) >> clusterShift;
        if (said == 0 || inTable <= 0 || fitting <= 0) {
            throw VolumeReader.damaged("its first sector counts " + said + " clusters, a table for " + inTable
                    + " and room for " + fitting);
        }
        if (inTable < said) {
            tree.trouble("The allocation table has no room for all clusters.");
        }
        if (fitting < said) {
            tree.trouble("The volume says that it is longer than the room it lies in.");
        }
        clusters = Math.min(Math.min(said, inTable), fitting);
        if (clusters > ClusterTable.MOST_CLUSTERS) {
            throw VolumeReader.tooLarge(clusters);
        }
        heap = new Extent(partition.startByte() + heapStart, clusters * clusterBytes);
        table = new ClusterTable(source, tables.get(0), heap, clusterBytes, clusters, ClusterTable.Width.EXFAT, tree);
    }

    Volume read() throws IOException {
        int flags = boot.u16(106);
        tree.walk(table.chain(boot.u32(96), LONGEST_FOLDER, "/"), this::folder);
        return new Volume(
                partition,
                "exfat",
                label,
                clusterBytes,
                clusters,
                tables,
                heap,
                bitmap,
                (flags & 2) != 0,
                (flags & 4) != 0,
                tree.files(),
                table.shared(tree.files()),
                tree.troubles());
    }

    private void folder(Tree.Visit visit) throws IOException {
        Folder entries = new Folder(source, visit.extents());
        Set set = null;
        while (entries.next()) {
            int type = entries.u8(0);
            if (type == 0) {
                break;
            }
            if (type == FILE) {
                incomplete(set, visit);
                set = new Set(entries);
            } else if (set != null && (type & 0x40) != 0) {
                set.take(entries, type);
                if (set.remaining == 0) {
                    if (!one(visit, set)) {
                        return;
                    }
                    set = null;
                }
            } else if ((type & 0x80) != 0) {
                incomplete(set, visit);
                set = null;
                if (visit.depth() == 0) {
                    ofTheVolume(entries, type);
                }
            } else {
                incomplete(set, visit);
                set = null;
            }
        }
        incomplete(set, visit);
    }

    private void incomplete(@Nullable Set set, Tree.Visit visit) {
        if (set != null) {
            tree.trouble("A file in the folder " + Inert.quoted("/" + visit.path()) + " has an entry that breaks off.");
        }
    }

    private void ofTheVolume(Folder entries, int type) throws IOException {
        if (type == LABEL) {
            label = entries.utf16(2, Math.min(entries.u8(1), 11));
        } else if (type == BITMAP && (entries.u8(1) & 1) == 0) {
            bitmap = table.chain(entries.u32(20), Long.MAX_VALUE, "bitmap");
        }
    }

    /** Takes a file or a folder; false if there are too many. */
    private boolean one(Tree.Visit visit, Set set) throws IOException {
        String path = Tree.path(visit.path(), set.name());
        if (set.sum != set.checksum) {
            tree.trouble(Inert.quoted(path) + " has an entry whose checksum is wrong.");
        }
        boolean isFolder = (set.attributes & FOLDER) != 0;
        List<Extent> extents;
        if (set.firstCluster == 0) {
            extents = List.of();
        } else if ((set.flags & NO_CHAIN) != 0) {
            extents = table.contiguous(
                    set.firstCluster, isFolder ? Math.min(set.length, LONGEST_FOLDER) : set.length, path);
        } else {
            extents = isFolder
                    ? table.chain(set.firstCluster, LONGEST_FOLDER, path)
                    : table.file(set.firstCluster, set.length, path);
        }
        long allocated = extents.stream().mapToLong(Extent::lengthBytes).sum();
        if (allocated < set.length) {
            tree.trouble(Inert.quoted(path) + " has clusters for " + allocated + " of its " + set.length + " bytes.");
        }
        if (set.valid > set.length) {
            tree.trouble(Inert.quoted(path) + " has more bytes written than it is long.");
        }
        long valid = Math.min(set.valid, set.length);
        return tree.add(visit, new VolumeFile(path, isFolder, set.length, valid, extents, set.entryByte));
    }

    /** The entries of one file. */
    private static final class Set {
        private final long entryByte;
        private final int attributes;
        private final int checksum;
        private final StringBuilder letters = new StringBuilder();
        private int remaining;
        private int sum;
        private int nameLength;
        private int flags;
        private long valid;
        private long length;
        private long firstCluster;

        Set(Folder entries) {
            entryByte = entries.entryByte();
            remaining = entries.u8(1);
            checksum = entries.u16(2);
            attributes = entries.u16(4);
            add(entries, true);
        }

        void take(Folder entries, int type) {
            remaining--;
            add(entries, false);
            if (type == STREAM) {
                flags = entries.u8(1);
                nameLength = entries.u8(3);
                valid = entries.u64(8);
                firstCluster = entries.u32(20);
                length = entries.u64(24);
            } else if (type == NAME) {
                letters.append(entries.utf16(2, NAME_PIECE));
            }
        }

        String name() {
            return letters.substring(0, Math.min(nameLength, letters.length()));
        }

        /** Figure 1 of section 6.3.3 of the specification: the checksum leaves itself out. */
        private void add(Folder entries, boolean first) {
            for (int i = 0; i < Folder.ENTRY; i++) {
                if (!first || (i != 2 && i != 3)) {
                    sum = (((sum & 1) << 15) + (sum >> 1) + entries.u8(i)) & 0xFFFF;
                }
            }
        }
    }
}

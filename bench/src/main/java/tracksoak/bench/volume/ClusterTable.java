package tracksoak.bench.volume;

import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.profiles.base.Inert;

/**
 * The allocation table: follows chains of clusters. What a file shares with another is followed to the file's end, but of all files together
 * no more than there are clusters, so that neither circles nor crossed chains are followed for ever. Confined to one thread.
 */
final class ClusterTable {

    /** Most clusters of a volume that is looked at: 32 TiB in clusters of 128 KiB. */
    static final int MOST_CLUSTERS = 1 << 28;

    /** Most pieces told that files share. */
    private static final int MOST_SHARED = 1000;

    /** Most runs of clusters in all. */
    private static final int MOST_RUNS = 4 << 20;

    private static final int PAGE = 4096;
    private static final int PAGES = 256;
    private static final int FIRST = 2;

    /** Which bits of an entry count, and from where on it ends a chain. */
    enum Width {
        FAT32(0x0FFF_FFFFL, 0x0FFF_FFF8L),
        EXFAT(0xFFFF_FFFFL, 0xFFFF_FFF8L);

        private final long mask;
        private final long end;

        Width(long mask, long end) {
            this.mask = mask;
            this.end = end;
        }
    }

    private final ByteSource source;
    private final Extent table;
    private final Extent heap;
    private final int clusterBytes;
    private final long clusters;
    private final Width width;
    private final Tree tree;
    private final BitSet taken = new BitSet();
    private final BitSet shared = new BitSet();
    private long mayBeShared;
    private final Map<Long, Bytes> pages = new LinkedHashMap<>(16, 0.75f, true);
    private int runs;

    ClusterTable(
            ByteSource source, Extent table, Extent heap, int clusterBytes, long clusters, Width width, Tree tree) {
        this.source = source;
        this.table = table;
        this.heap = heap;
        this.clusterBytes = clusterBytes;
        this.clusters = clusters;
        this.width = width;
        this.tree = tree;
        mayBeShared = clusters;
    }

    /**
     * The clusters of a chain.
     *
     * @param first its first cluster
     * @param mostBytes where to stop looking, whatever the chain says
     * @param name whose chain it is, for troubles
     */
    List<Extent> chain(long first, long mostBytes, String name) throws IOException {
        return chain(first, mostBytes, 0, name);
    }

    /** The same of a file of {@code bytes} bytes, and so far also where another file has its clusters as well. */
    List<Extent> file(long first, long bytes, String name) throws IOException {
        return chain(first, Long.MAX_VALUE, bytes, name);
    }

    private List<Extent> chain(long first, long mostBytes, long sharedBytes, String name) throws IOException {
        ClusterRuns chain = new ClusterRuns(heap.startByte(), clusterBytes);
        long start = first;
        int length = 0;
        long bytes = 0;
        long cluster = first;
        boolean crossed = false;
        while (inside(cluster, name)) {
            int index = Math.toIntExact(cluster - FIRST);
            if (taken.get(index)) {
                boolean own = !crossed && ((cluster >= start && cluster < start + length) || has(chain, cluster));
                if (own) {
                    tree.trouble(of(name) + " has clusters that it has already.");
                }
                if (own || !share(index, index + 1)) {
                    break;
                }
                if (bytes >= sharedBytes) {
                    tree.trouble(of(name) + " has clusters that belong to another file as well.");
                    break;
                }
                crossed = true;
            }
            taken.set(index);
            if (length > 0 && cluster != start + length) {
                append(chain, start, length);
                start = cluster;
                length = 0;
            }
            length++;
            bytes += clusterBytes;
            cluster = next(cluster);
            if (cluster >= width.end || full()) {
                break;
            }
            if (bytes >= mostBytes) {
                tree.trouble(of(name) + " has more clusters than a folder may have.");
                break;
            }
        }
        if (length > 0) {
            append(chain, start, length);
        }
        return chain;
    }

    private boolean has(List<Extent> chain, long cluster) {
        long at = heap.startByte() + (cluster - FIRST) * clusterBytes;
        return chain.stream().anyMatch(run -> at >= run.startByte() && at < run.endByte());
    }

    /** Notes that clusters are shared; false where so many are that no more are looked at. */
    private boolean share(int from, int to) {
        if (mayBeShared < to - from) {
            return false;
        }
        mayBeShared -= to - from;
        shared.set(from, to);
        return true;
    }

    /** The clusters of a file of {@code bytes} bytes that lie side by side and are in no table. */
    List<Extent> contiguous(long first, long bytes, String name) {
        ClusterRuns one = new ClusterRuns(heap.startByte(), clusterBytes);
        long wanted = bytes / clusterBytes + (bytes % clusterBytes == 0 ? 0 : 1);
        long length = Math.max(0, Math.min(wanted, FIRST + clusters - first));
        if (first < FIRST || length < wanted) {
            tree.trouble(of(name) + " reaches beyond the end of the volume.");
        }
        if (first < FIRST || length == 0 || full()) {
            return one;
        }
        int from = Math.toIntExact(first - FIRST);
        int to = Math.toIntExact(first - FIRST + length);
        for (int at = taken.nextSetBit(from); at >= 0 && at < to; ) {
            int end = Math.min(to, taken.nextClearBit(at));
            share(at, end);
            at = taken.nextSetBit(end);
        }
        taken.set(from, to);
        append(one, first, Math.toIntExact(length));
        return one;
    }

    private boolean full() {
        if (runs == MOST_RUNS) {
            tree.trouble("Its files are in more than " + MOST_RUNS + " pieces; the rest is not looked at.");
            runs++;
        }
        return runs > MOST_RUNS;
    }

    private boolean inside(long cluster, String name) {
        if (cluster < FIRST || cluster >= FIRST + clusters) {
            tree.trouble(of(name) + " has a chain of clusters that breaks off.");
            return false;
        }
        return true;
    }

    /** What these files and folders have in common with each other, or with what is no file. */
    List<SharedPiece> shared(List<VolumeFile> files) {
        List<SharedPiece> pieces = new ArrayList<>();
        if (shared.isEmpty()) {
            return pieces;
        }
        for (VolumeFile file : files) {
            long before = 0;
            for (Extent run : file.extents()) {
                int first = Math.toIntExact((run.startByte() - heap.startByte()) / clusterBytes);
                int last = Math.toIntExact(first + run.lengthBytes() / clusterBytes);
                for (int at = shared.nextSetBit(first); at >= 0 && at < last && pieces.size() < MOST_SHARED; ) {
                    int end = Math.min(last, shared.nextClearBit(at));
                    Extent place =
                            new Extent(heap.startByte() + (long) at * clusterBytes, (long) (end - at) * clusterBytes);
                    pieces.add(new SharedPiece(file.path(), before + (long) (at - first) * clusterBytes, place));
                    at = shared.nextSetBit(end);
                }
                before += run.lengthBytes();
            }
        }
        return pieces;
    }

    private void append(ClusterRuns to, long first, int length) {
        if (runs < MOST_RUNS) {
            runs++;
        }
        to.append(Math.toIntExact(first), length);
    }

    /** What the table says under a cluster. */
    long next(long cluster) throws IOException {
        long at = cluster * 4;
        long page = at / PAGE;
        Bytes bytes = pages.get(page);
        if (bytes == null) {
            long start = table.startByte() + page * PAGE;
            int length = (int) Math.min(PAGE, table.lengthBytes() - page * PAGE);
            bytes = new Bytes(source.read(start, length));
            pages.put(page, bytes);
            if (pages.size() > PAGES) {
                pages.remove(pages.keySet().iterator().next());
            }
        }
        return bytes.u32((int) (at % PAGE)) & width.mask;
    }

    private static String of(String name) {
        return Inert.quoted(name);
    }
}

package tracksoak.bench.volume;

import java.util.AbstractList;
import java.util.Arrays;
import java.util.RandomAccess;

/**
 * Runs of clusters, seen as extents. A drive recorded by many tracks at once has millions of them, so they are kept in eight
 * bytes each. Immutable once it has been given away.
 */
final class ClusterRuns extends AbstractList<Extent> implements RandomAccess {

    private static final int FIRST = 2;

    private final long heapByte;
    private final int clusterBytes;
    private int[] runs = new int[4];
    private int count;

    /** Collects runs of clusters of {@code clusterBytes} bytes, cluster 2 of which begins at {@code heapByte}. */
    ClusterRuns(long heapByte, int clusterBytes) {
        this.heapByte = heapByte;
        this.clusterBytes = clusterBytes;
    }

    void append(int firstCluster, int clusters) {
        if (2 * count == runs.length) {
            runs = Arrays.copyOf(runs, 2 * runs.length);
        }
        runs[2 * count] = firstCluster;
        runs[2 * count + 1] = clusters;
        count++;
    }

    @Override
    public Extent get(int index) {
        if (index < 0 || index >= count) {
            throw new IndexOutOfBoundsException(index);
        }
        return new Extent(
                heapByte + (long) (runs[2 * index] - FIRST) * clusterBytes, (long) runs[2 * index + 1] * clusterBytes);
    }

    @Override
    public int size() {
        return count;
    }
}

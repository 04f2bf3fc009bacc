package tracksoak.bench.simulated;

import java.util.Arrays;

/** One file of a simulated drive: where its clusters lie and what its blocks hold. */
final class FileNode {

    final int id;
    final String name;
    final Extents extents = new Extents();
    int[] clusters = new int[16];
    int clusterCount;
    int fragments;
    long sizeBytes;

    FileNode(int id, String name) {
        this.id = id;
        this.name = name;
    }

    void add(int cluster) {
        if (clusterCount == clusters.length) {
            clusters = Arrays.copyOf(clusters, clusterCount * 2);
        }
        if (clusterCount == 0 || clusters[clusterCount - 1] + 1 != cluster) {
            fragments++;
        }
        clusters[clusterCount++] = cluster;
    }

    /** Device block of file block {@code at}. */
    int deviceBlock(int at, int blocksPerCluster) {
        return clusters[at / blocksPerCluster] * blocksPerCluster + at % blocksPerCluster;
    }
}

package tracksoak.bench.simulated;

import java.util.Arrays;
import tracksoak.bench.simulated.medium.Extents;

/** One file of a simulated drive: where its clusters lie and what its blocks hold. */
final class FileNode {

    final int id;
    final String name;
    final Extents extents = new Extents();
    int clusterCount;
    int fragments;
    long sizeBytes;

    /** Where each piece, clusters that follow one another, begins in the file and on the drive. */
    private int[] begins = new int[4];

    private int[] lies = new int[4];
    private int pieces;
    private int lookedAt;

    FileNode(int id, String name) {
        this.id = id;
        this.name = name;
    }

    void add(int cluster) {
        if (pieces == 0 || cluster(clusterCount - 1) + 1 != cluster) {
            if (pieces == begins.length) {
                begins = Arrays.copyOf(begins, pieces * 2);
                lies = Arrays.copyOf(lies, pieces * 2);
            }
            begins[pieces] = clusterCount;
            lies[pieces++] = cluster;
            fragments++;
        }
        clusterCount++;
    }

    /** Takes the last cluster away and returns it. */
    int removeLast() {
        int cluster = cluster(--clusterCount);
        if (begins[pieces - 1] == clusterCount) {
            pieces--;
            lookedAt = 0;
        }
        return cluster;
    }

    /** Where cluster {@code index} of the file lies. */
    int cluster(int index) {
        if (!holds(lookedAt, index)) {
            if (holds(lookedAt + 1, index)) {
                lookedAt++;
            } else {
                int found = Arrays.binarySearch(begins, 0, pieces, index);
                lookedAt = found >= 0 ? found : -found - 2;
            }
        }
        return lies[lookedAt] + index - begins[lookedAt];
    }

    private boolean holds(int piece, int index) {
        return piece < pieces && begins[piece] <= index && (piece + 1 == pieces || index < begins[piece + 1]);
    }

    /** Device block of file block {@code at}. */
    int deviceBlock(int at, int blocksPerCluster) {
        return cluster(at / blocksPerCluster) * blocksPerCluster + at % blocksPerCluster;
    }
}

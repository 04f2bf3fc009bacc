package tracksoak.bench.simulated;

import java.util.Arrays;
import java.util.BitSet;

/** The clusters of a simulated drive: the next free one is taken in order, as a simple file system does. */
final class Space {

    private final int firstOwn;
    private final int own;
    private final BitSet taken = new BitSet();
    /** Owner of each cluster, also of one that was freed, until it is taken again: what lies there is still his. */
    private int[] owner = new int[1024];

    private int[] place = new int[1024];
    private int next;
    private int free;

    /**
     * An empty space.
     *
     * @param clusters clusters of the whole drive
     * @param used how many of them, at the beginning, are used by others
     */
    Space(int clusters, int used) {
        firstOwn = used;
        own = clusters - used;
        free = own;
    }

    int free() {
        return free;
    }

    /** Takes a cluster for place {@code index} of file {@code file} and returns it; there must be one free. */
    int take(int file, int index) {
        int at = taken.nextClearBit(next);
        if (at >= own) {
            at = taken.nextClearBit(0);
        }
        taken.set(at);
        if (at >= owner.length) {
            int length = (int) Math.min(own, Math.max(at + 1L, owner.length * 2L));
            owner = Arrays.copyOf(owner, length);
            place = Arrays.copyOf(place, length);
        }
        owner[at] = file;
        place[at] = index;
        next = at + 1;
        free--;
        return firstOwn + at;
    }

    void release(int cluster) {
        taken.clear(cluster - firstOwn);
        free++;
    }

    int ownerOf(int cluster) {
        return owner[cluster - firstOwn];
    }

    int placeOf(int cluster) {
        return place[cluster - firstOwn];
    }
}

package tracksoak.bench.simulated.medium;

import java.util.Arrays;
import java.util.BitSet;

/** The clusters of a simulated drive: the next free one is taken in order, as a simple file system does. */
public final class Space {

    /** Clusters of which one may be taken far from all others are kept in pages of so many. */
    private static final int PAGE = 1024;

    private final int firstOwn;
    private final int own;
    private final boolean remembers;
    private final BitSet taken = new BitSet();
    /** Owner of each cluster, also of one that was freed, until it is taken again: what lies there is still his. */
    private int[][] owner = new int[0][];

    private int[][] place = new int[0][];
    private int next;
    private int free;

    /**
     * An empty space.
     *
     * @param clusters clusters of the whole drive
     * @param used how many of them, at the beginning, are used by others
     * @param remembers whether it keeps whose each is
     */
    public Space(int clusters, int used, boolean remembers) {
        this.remembers = remembers;
        firstOwn = used;
        own = clusters - used;
        free = own;
    }

    public int free() {
        return free;
    }

    /** Takes a cluster for place {@code index} of file {@code file} and returns it; there must be one free. */
    public int take(int file, int index) {
        int at = taken.nextClearBit(next);
        if (at >= own) {
            at = taken.nextClearBit(0);
        }
        taken.set(at);
        if (remembers) {
            remember(at, file, index);
        }
        next = at + 1;
        free--;
        return firstOwn + at;
    }

    private void remember(int at, int file, int index) {
        int page = at / PAGE;
        if (page >= owner.length) {
            int length = (int) Math.max(page + 1L, owner.length * 2L);
            owner = Arrays.copyOf(owner, length);
            place = Arrays.copyOf(place, length);
        }
        if (owner[page] == null) {
            owner[page] = new int[PAGE];
            place[page] = new int[PAGE];
        }
        owner[page][at % PAGE] = file;
        place[page][at % PAGE] = index;
    }

    /** The next cluster taken is the first free one from such a share of the room on. */
    public void goOnAt(double share) {
        next = (int) Math.min(own - 1L, (long) (share * own));
    }

    public void release(int cluster) {
        taken.clear(cluster - firstOwn);
        free++;
    }

    public int ownerOf(int cluster) {
        return owner[(cluster - firstOwn) / PAGE][(cluster - firstOwn) % PAGE];
    }

    public int placeOf(int cluster) {
        return place[(cluster - firstOwn) / PAGE][(cluster - firstOwn) % PAGE];
    }
}

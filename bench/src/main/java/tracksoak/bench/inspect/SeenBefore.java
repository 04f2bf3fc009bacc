package tracksoak.bench.inspect;

/**
 * Remembers what values lay at the multiples of some number of bytes, by some of their bits: what it tells may be chance. It forgets a value
 * when another takes its slot. One thread.
 */
final class SeenBefore {

    private static final int PLACE_BITS = 17;
    private static final int KNOWN_BY = -1 << PLACE_BITS;
    private static final int SLOTS_FROM = 40;

    private final int grid;
    /** Of each value the bits by which it is known again, and its place. */
    private final int[] seen;

    /**
     * @param grid bytes between the places
     * @param slotBits room for 2 to this power of values
     */
    SeenBefore(int grid, int slotBits) {
        this.grid = grid;
        seen = new int[1 << slotBits];
    }

    /**
     * Keeps a value.
     *
     * @param mixed a number that all its bits have their part in; the upper ones count most
     * @param place which multiple it lies at
     */
    void keep(long mixed, int place) {
        int[] seen = this.seen;
        seen[(int) (mixed >>> SLOTS_FROM) & seen.length - 1] = ((int) mixed & KNOWN_BY) | (place & ~KNOWN_BY);
    }

    /** Whether a value may be known. */
    boolean knows(long mixed) {
        int[] seen = this.seen;
        return (seen[(int) (mixed >>> SLOTS_FROM) & seen.length - 1] ^ (int) mixed) >>> PLACE_BITS == 0;
    }

    /** How many bytes before a place a value lay the last time, if it is known. */
    int away(long mixed, long at) {
        long before = at / grid - seen[(int) (mixed >>> SLOTS_FROM) & seen.length - 1] & ~KNOWN_BY;
        return (int) (at % grid + before * grid);
    }
}

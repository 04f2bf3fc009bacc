package tracksoak.bench.inspect;

import java.util.function.LongUnaryOperator;

/**
 * Remembers where values lay, and tells of stretches in which they lay somewhere else before, one as far away as the other. It knows values
 * by some of their bits, and forgets old ones. Distances and places are counted in values. One thread.
 */
final class SeenBefore {

    /** Hears of a stretch. */
    interface Found {
        void stretch(long from, long until, long distance);
    }

    /** Nearer ones are the signal's own periods. */
    static final int LEAST_DISTANCE = 64;

    private static final int PLACE_BITS = 40;
    private static final long KNOWN_BY = -1L << PLACE_BITS;
    private static final int ENOUGH = 2;

    private final int slotBits;
    private final int shift;
    private final LongUnaryOperator gap;
    private final Found found;
    /** Of each value its place and the bits by which it is known again. */
    private final long[] seen;

    private long distance;
    private long from;
    private long last;
    private int hits;

    /**
     * @param slotBits room for 2 to this power of values
     * @param gap of a distance: after so many values without one that was there before a stretch has ended
     */
    SeenBefore(int slotBits, LongUnaryOperator gap, Found found) {
        this.gap = gap;
        this.found = found;
        this.slotBits = slotBits;
        shift = Long.SIZE - slotBits;
        seen = new long[1 << slotBits];
    }

    /**
     * Takes a value; places rise.
     *
     * @param mixed a number that its bits and those behind it have their part in; the upper ones count
     */
    void look(long mixed, long place) {
        int slot = (int) (mixed >>> shift);
        long now = ((mixed << slotBits) & KNOWN_BY) | place;
        long before = seen[slot];
        seen[slot] = now;
        if ((before ^ now) >>> PLACE_BITS == 0) {
            again(place, place - (before & ~KNOWN_BY));
        }
    }

    private void again(long place, long away) {
        if (hits > 0 && place - last <= gap.applyAsLong(distance)) {
            if (away == distance) {
                last = place;
                hits++;
            }
            return;
        }
        end();
        if (away >= LEAST_DISTANCE) {
            distance = away;
            from = place;
            last = place;
            hits = 1;
        }
    }

    /** Nothing more comes. */
    void end() {
        if (hits >= ENOUGH) {
            found.stretch(from, last + 1, distance);
        }
        hits = 0;
    }
}

package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import tracksoak.bench.recording.WaveFormat;

/**
 * Looks through stored samples for stretches that were there before. What it finds is near, and may be chance: whoever hears of it looks
 * again. Memory does not grow. One thread.
 *
 * <p>It keeps the values at the multiples of a grid, and in each round asks for a row of them: as many as lie a sample apart between two
 * places of the grid, and as many as lie eight bytes apart. However many whole samples, or times eight bytes, lie between two stretches that
 * are alike, one of the row lies that far behind a place of the grid. So a stretch that is as long as a round and a row is known again
 * wherever it begins.
 */
final class RepeatScan {

    /** Hears what is found; places are bytes from the first sample on. */
    interface Found {

        /** About what lies here lies {@code distance} bytes before as well. */
        void repeat(long from, long until, long distance);
    }

    /** Bytes that are needed to tell a value from others. */
    private static final int VALUE = 16;

    /** The last bytes of a block that do not hold a whole value. */
    private static final int SEAM = VALUE - 1;

    /** Other distances than whole samples are multiples of it. */
    private static final int WORD = 8;

    /** Some values of every piece that recorders write are kept for longer. */
    private static final int PIECES = 1024;

    /** What is known by few bits from further away is told only where it is known twice. */
    private static final int NEAR = 256 << 10;

    private static final int NEAR_BITS = 16;
    private static final int FAR_BITS = 15;
    private static final long MIX = 0x9E37_79B9_7F4A_7C15L;
    /** No whole number of samples of any word length: values of the same few samples in another order are not the same. */
    private static final int TURN = 27;

    private final Found found;
    private final int frame;
    private final int least;
    private final int grid;
    private final int round;
    private final boolean asksWords;
    private final SeenBefore near;
    private final SeenBefore far = new SeenBefore(PIECES, FAR_BITS);
    private final ByteBuffer seam = ByteBuffer.allocateDirect(2 * SEAM).order(ByteOrder.LITTLE_ENDIAN);
    private long next;

    private long distance;
    private long from = -1;
    private long last;
    /** Whether more than one value, or the bytes around it, speak for the stretch at hand. */
    private boolean sure;

    private boolean told;

    RepeatScan(WaveFormat format, Found found) {
        this.found = found;
        frame = format.frameBytes();
        least = DropoutCheck.leastRepeat(format);
        asksWords = WORD % frame != 0;
        // as many are kept as are asked for, about
        int both = frame / gcd(frame, WORD) * WORD;
        grid = both * (int) Math.max(1, Math.round(frame * Math.sqrt((double) least / frame) / both));
        round = Math.max(1, (least - grid - SEAM) / grid) * grid;
        near = new SeenBefore(grid, NEAR_BITS);
    }

    private static int gcd(int a, int b) {
        return b == 0 ? a : gcd(b, a % b);
    }

    /**
     * Takes the next bytes.
     *
     * @param at where they lie
     */
    void block(ByteBuffer bytes, int count, long at) {
        if (count < SEAM) {
            return;
        }
        if (at == next && at > 0) {
            seam.put(SEAM, bytes, 0, SEAM);
            values(seam, 0, SEAM, at - SEAM);
        }
        values(bytes, 0, count - SEAM, at);
        seam.put(0, bytes, count - SEAM, SEAM);
        next = at + count;
    }

    /** Values that begin from one place up to another, of bytes of which the first lies at {@code first}. */
    private void values(ByteBuffer bytes, int begin, int end, long first) {
        long place = (first + begin + grid - 1) / grid;
        int kept = (int) (place * grid - first);
        int row = begin - (int) ((first + begin) % round);
        for (int at = begin; at < end; at = row) {
            if (at < row + grid) {
                ask(bytes, row, at, Math.min(end, row + grid), first);
            }
            row += round;
            int over = Math.min(end, row);
            keep(bytes, kept, over, place);
            int count = Math.max(0, over - kept + grid - 1) / grid;
            place += count;
            kept += count * grid;
        }
        for (int i = begin + (int) (-(first + begin) & PIECES - 1); i < end; i += PIECES) {
            long value = longValue(bytes, i);
            if (far.knows(value)) {
                again(bytes, i, first + i, far.away(value, first + i), true);
            }
            far.keep(value, (int) ((first + i) / PIECES));
        }
    }

    /** Of those that occur most the compiler knows the steps: so its loops are a third faster. */
    private void keep(ByteBuffer bytes, int begin, int end, long place) {
        switch (grid) {
            case 48 -> keep(bytes, begin, end, 48, place);
            case 64 -> keep(bytes, begin, end, 64, place);
            case 72 -> keep(bytes, begin, end, 72, place);
            default -> keep(bytes, begin, end, grid, place);
        }
    }

    private void keep(ByteBuffer bytes, int begin, int end, int step, long place) {
        int at = (int) place;
        for (int i = begin; i < end; i += step, at++) {
            near.keep(value(bytes, i), at);
        }
    }

    /** Eight bytes, for all that comes from near is looked at as a whole. */
    private static long value(ByteBuffer bytes, int at) {
        return bytes.getLong(at) * MIX;
    }

    /** So many that quiet audio does not hold the same by chance. */
    private static long longValue(ByteBuffer bytes, int at) {
        return (bytes.getLong(at) + Long.rotateLeft(bytes.getLong(at + 8), TURN)) * MIX;
    }

    /** Of a row that begins at {@code row}, the values from one place up to another. */
    private void ask(ByteBuffer bytes, int row, int begin, int end, long first) {
        int at = row + (begin - row + frame - 1) / frame * frame;
        boolean known = switch (frame) {
            case 2 -> knows(bytes, at, end, 2);
            case 3 -> knows(bytes, at, end, 3);
            case 4 -> knows(bytes, at, end, 4);
            case 6 -> knows(bytes, at, end, 6);
            default -> knows(bytes, at, end, frame);
        };
        if (known) {
            again(bytes, at, end, frame, first);
        }
        int word = row + (begin - row + WORD - 1) / WORD * WORD;
        if (asksWords && knows(bytes, word, end, WORD)) {
            again(bytes, word, end, WORD, first);
        }
    }

    private boolean knows(ByteBuffer bytes, int begin, int end, int step) {
        for (int i = begin; i < end; i += step) {
            if (near.knows(value(bytes, i))) {
                return true;
            }
        }
        return false;
    }

    private void again(ByteBuffer bytes, int begin, int end, int step, long first) {
        for (int i = begin; i < end; i += step) {
            long value = value(bytes, i);
            if (near.knows(value)) {
                again(bytes, i, first + i, near.away(value, first + i), false);
            }
        }
    }

    private void again(ByteBuffer bytes, int i, long at, int away, boolean alone) {
        if (away < DropoutCheck.NEAREST) {
            return;
        }
        boolean goesOn = from >= 0 && at - last <= 2L * round;
        if (goesOn && away == distance) {
            last = at;
            sure = true;
            told = true;
        } else if (!(goesOn && sure) && mayBeLong(bytes, i, away)) {
            end();
            distance = away;
            from = at;
            last = at;
            sure = away <= i;
            told = alone || away <= NEAR;
        }
    }

    /** Whether as much may be as it was before as makes a repeat: no more than the block at hand is looked at. */
    private boolean mayBeLong(ByteBuffer bytes, int i, int away) {
        if (away > i) {
            return true;
        }
        int behind = Math.min(least, bytes.limit() - i);
        int same = bytes.slice(i, behind).mismatch(bytes.slice(i - away, behind));
        if (same < 0) {
            return true;
        }
        int before = Math.min(least - same, i - away);
        int begin = 1;
        while (begin <= before && bytes.get(i - begin) == bytes.get(i - away - begin)) {
            begin++;
        }
        return begin > before;
    }

    /** Nothing more comes. */
    void end() {
        if (from >= 0 && told) {
            found.repeat(from, last + 1, distance);
        }
        from = -1;
    }
}

package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import tracksoak.bench.recording.WaveFormat;

/**
 * Looks through stored samples, as values of eight bytes, for runs of silence and for stretches that were there before. What it finds is
 * near, and may be chance: whoever hears of it looks again. Memory does not grow. One thread.
 *
 * <p>It looks at few of the values, always at the same places, which are so chosen that every distance occurs between two of them: of a
 * stretch that comes again some value was looked at both times, however far away it was, and wherever it begins.
 */
final class RawScan {

    /** Hears what is found; places are bytes from the first sample on. */
    interface Found {

        /** Nothing but silence in at least {@value #LEAST_ZEROS} bytes. */
        void zeros(long from, long until);

        /** Nothing but bits that are set in at least {@value #LEAST_ERASED} bytes. */
        void erased(long from, long until);

        /** About what lies here lies {@code distance} bytes before as well. */
        void repeat(long from, long until, long distance);
    }

    /** Shorter runs are not told, in bytes. */
    static final int LEAST_ZEROS = 384;

    /** The same of erased memory: the whole values in a block of 4 KiB. */
    static final int LEAST_ERASED = 4080;

    /** Values looked at in one go: few enough to stay near the processor. */
    private static final int PART = 2048;

    /**
     * Period of 0, 1, 3, 7, 15, 31, 36, 54, 63, a perfect difference set (Singer 1938): every distance that is no multiple of the period
     * occurs in it once.
     */
    private static final int SINGER_PERIOD = 73;

    private static final int[] SINGER = {0, 1, 3, 7, 15, 31, 36, 54, 63};

    /**
     * Every so manieth value: recorders' pieces, and the distances between them, are multiples of it. In every part one of its steps is
     * looked at whole, so that between it and the grid every other distance occurs as well.
     */
    private static final int GRID = 32;

    /** What comes again as a whole from further away is long enough for the grid. */
    private static final int FAR = 2 * PART;

    private static final int NEAR_BITS = 11;
    private static final int FAR_BITS = 15;
    private static final long MIX = 0x9E37_79B9_7F4A_7C15L;
    /** No whole number of samples of any word length: values of the same few samples in another order are not the same. */
    private static final int TURN = 27;

    private final Found found;
    private final long silence;
    private final long counts;
    private final boolean asksErased;
    private final Run zeros;
    private final Run erased;
    private final SeenBefore near;
    private final SeenBefore far;

    RawScan(WaveFormat format, Found found) {
        this.found = found;
        silence = format.silentWord();
        counts = format.countingBits();
        asksErased = format.allOnesAreQuiet();
        zeros = new Run(silence, LEAST_ZEROS, found::zeros);
        erased = new Run(-1, LEAST_ERASED, found::erased);
        near = new SeenBefore(
                NEAR_BITS, away -> 2 * SINGER_PERIOD, (from, until, away) -> repeat(from, until, away, !isFar(away)));
        far = new SeenBefore(
                FAR_BITS,
                away -> away % GRID == 0 ? 2 * GRID : FAR,
                (from, until, away) -> repeat(from, until, away, isFar(away)));
    }

    private static boolean isFar(long away) {
        return away % GRID == 0 || away >= FAR;
    }

    private void repeat(long from, long until, long away, boolean told) {
        if (told) {
            found.repeat(8 * from, 8 * until, 8 * away);
        }
    }

    /**
     * Takes the next bytes, from position 0 on.
     *
     * @param count a multiple of 8, but for the last bytes of all
     * @param at where they lie
     */
    void block(ByteBuffer bytes, int count, long at) {
        int all = count / 8;
        long first = at / 8;
        for (int begin = 0; begin < all; begin += PART) {
            int end = Math.min(all, begin + PART);
            if (anySilent(bytes, begin, end)) {
                zeros.look(bytes, begin, end, all, first);
            }
            if (asksErased && anyErased(bytes, begin, end)) {
                erased.look(bytes, begin, end, all, first);
            }
            int whole = Math.min(end, all - 1);
            near(bytes, begin, whole, first);
            far(bytes, begin, whole, first);
        }
    }

    /** Without a branch for each: that would cost more than all else. */
    private boolean anySilent(ByteBuffer bytes, int begin, int end) {
        long any = below0IfNought((bytes.getLong(8 * (end - 1)) ^ silence) & counts);
        for (int i = begin; i < end; i += GRID) {
            any |= below0IfNought((bytes.getLong(8 * i) ^ silence) & counts);
        }
        return any < 0;
    }

    /** A block of them holds many that are looked at. */
    private static boolean anyErased(ByteBuffer bytes, int begin, int end) {
        long any = below0IfNought(~bytes.getLong(8 * (end - 1)));
        for (int i = begin; i < end; i += 8 * GRID) {
            any |= below0IfNought(~bytes.getLong(8 * i));
        }
        return any < 0;
    }

    private static long below0IfNought(long value) {
        return (value - 1) & ~value;
    }

    /** Periods begin at the same places wherever blocks and parts do, for a stretch may lie across their borders. */
    private void near(ByteBuffer bytes, int begin, int end, long first) {
        int into = (int) Math.floorMod(first + begin, (long) SINGER_PERIOD);
        int whole = begin + (into == 0 ? 0 : SINGER_PERIOD - into);
        cut(bytes, begin - into, begin, Math.min(whole, end), first);
        // the set is spelled out: so compilers make it twice as fast
        for (; whole <= end - SINGER_PERIOD; whole += SINGER_PERIOD) {
            look(near, bytes, whole, first);
            look(near, bytes, whole + 1, first);
            look(near, bytes, whole + 3, first);
            look(near, bytes, whole + 7, first);
            look(near, bytes, whole + 15, first);
            look(near, bytes, whole + 31, first);
            look(near, bytes, whole + 36, first);
            look(near, bytes, whole + 54, first);
            look(near, bytes, whole + 63, first);
        }
        cut(bytes, whole, whole, end, first);
    }

    /** The part of a period between two places. */
    private void cut(ByteBuffer bytes, int period, int from, int until, long first) {
        for (int place : SINGER) {
            if (period + place >= from && period + place < until) {
                look(near, bytes, period + place, first);
            }
        }
    }

    private void far(ByteBuffer bytes, int begin, int end, long first) {
        int step = Math.min(end, begin + GRID);
        for (int i = begin; i < step; i++) {
            look(far, bytes, i, first);
        }
        for (int i = step + (int) Math.floorMod(-first - step, (long) GRID); i < end; i += GRID) {
            look(far, bytes, i, first);
        }
    }

    /** Looks at a value and the one behind it. */
    private static void look(SeenBefore before, ByteBuffer bytes, int i, long first) {
        long value = bytes.getLong(8 * i);
        long next = bytes.getLong(8 * i + 8);
        before.look((value + Long.rotateLeft(next, TURN)) * MIX, first + i);
    }

    /** Hears where a run begins and ends, in bytes. */
    @FunctionalInterface
    private interface Told {
        void run(long from, long until);
    }

    /** Runs of one value. */
    private final class Run {

        private final long value;
        private final int least;
        private final Told told;
        private long from = -1;
        private long until;

        Run(long value, int least, Told told) {
            this.value = value;
            this.least = least;
            this.told = told;
        }

        void look(ByteBuffer bytes, int begin, int end, int all, long first) {
            for (int i = begin; i < end; i += GRID) {
                look(bytes, i, all, first);
            }
            look(bytes, end - 1, all, first);
        }

        /** Looks at all of a run, where there is one that is not known yet. */
        private void look(ByteBuffer bytes, int i, int all, long first) {
            if (!is(bytes, i) || first + i < until) {
                return;
            }
            int begin = i;
            while (begin > 0 && is(bytes, begin - 1)) {
                begin--;
            }
            int end = i + 1;
            while (end < all && is(bytes, end)) {
                end++;
            }
            if (first + begin != until || from < 0) {
                tell();
                from = first + begin;
            }
            until = first + end;
        }

        private boolean is(ByteBuffer bytes, int i) {
            return ((bytes.getLong(8 * i) ^ value) & counts) == 0;
        }

        void tell() {
            if (from >= 0 && 8 * (until - from) >= least) {
                told.run(8 * from, 8 * until);
            }
            from = -1;
        }
    }

    /** Nothing more comes. */
    void end() {
        zeros.tell();
        erased.tell();
        near.end();
        far.end();
    }
}

package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import tracksoak.bench.recording.WaveFormat;

/**
 * Looks through stored samples, as values of eight bytes, for runs of silence and of erased memory, and for stretches that were there before.
 * What it finds is near, and may be chance: whoever hears of it looks again. Memory does not grow. One thread.
 */
final class RawScan {

    /** Hears what is found; places are bytes from the first sample on. */
    interface Found extends RepeatScan.Found {

        /** Nothing but silence in at least {@value #LEAST_ZEROS} bytes. */
        void zeros(long from, long until);

        /** Nothing but bits that are set in at least {@value #LEAST_ERASED} bytes. */
        void erased(long from, long until);
    }

    /** Shorter runs are not told, in bytes. */
    static final int LEAST_ZEROS = 384;

    /** The same of erased memory: the whole values in a block of 4 KiB. */
    static final int LEAST_ERASED = 4080;

    /** Values looked at in one go: few enough to stay near the processor. */
    private static final int PART = 2048;

    /** Every so manieth value is looked at. */
    private static final int GRID = 32;

    private final long silence;
    private final long counts;
    private final boolean asksErased;
    private final Run zeros;
    private final Run erased;
    private final RepeatScan repeats;

    RawScan(WaveFormat format, Found found) {
        silence = format.silentWord();
        counts = format.countingBits();
        asksErased = format.allOnesAreQuiet();
        zeros = new Run(silence, LEAST_ZEROS, found::zeros);
        erased = new Run(-1, LEAST_ERASED, found::erased);
        repeats = new RepeatScan(format, found);
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
        }
        repeats.block(bytes, count, at);
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
        repeats.end();
    }
}

package tracksoak.bench.simulated.medium;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What the blocks of one file hold: runs of stamped blocks that count up, and single blocks kept as they are. Sorted by
 * place, never overlapping; a file written in one go is one entry however long it is.
 */
public final class Extents {

    private int size;
    private int cursor;
    private int[] first = new int[4];
    private int[] end = new int[4];
    private Source[] source = new Source[4];
    private long[] number = new long[4];

    /** Where the blocks of an entry come from: a stamp, or one block kept as it is. */
    public static final class Source {

        public final long run;
        public final int stream;
        public final int pass;
        public final byte @Nullable [] raw;

        Source(long run, int stream, int pass, byte @Nullable [] raw) {
            this.run = run;
            this.stream = stream;
            this.pass = pass;
            this.raw = raw;
        }

        boolean isOf(long otherRun, int otherStream, int otherPass) {
            return raw == null && run == otherRun && stream == otherStream && pass == otherPass;
        }
    }

    /** Notes {@code blocks} stamped blocks from {@code at} on, the first of them numbered {@code from}. */
    public void stamped(int at, int blocks, long run, int stream, int pass, long from) {
        int last = size - 1;
        if (last >= 0
                && end[last] == at
                && source[last].isOf(run, stream, pass)
                && number[last] + (at - first[last]) == from) {
            end[last] = at + blocks;
            return;
        }
        put(at, blocks, new Source(run, stream, pass, null), from);
    }

    /** Notes one block that is kept as it is. */
    public void raw(int at, byte[] block) {
        put(at, 1, new Source(0, 0, 0, block), 0);
    }

    /** The entry that holds block {@code at}, negative if none does. */
    public int find(int at) {
        if (cursor < size && first[cursor] <= at && at < end[cursor]) {
            return cursor;
        }
        int found = Arrays.binarySearch(first, 0, size, at);
        int entry = found >= 0 ? found : -found - 2;
        if (entry < 0 || at >= end[entry]) {
            return -1;
        }
        cursor = entry;
        return entry;
    }

    public Source source(int entry) {
        return source[entry];
    }

    public long number(int entry, int at) {
        return number[entry] + (at - first[entry]);
    }

    private void put(int at, int blocks, Source of, long from) {
        clear(at, at + blocks);
        int place = Arrays.binarySearch(first, 0, size, at);
        insert(-place - 1, at, at + blocks, of, from);
    }

    /** Forgets what lies from {@code from} to before {@code to}, cutting entries that reach over. */
    private void clear(int from, int to) {
        int entry = Arrays.binarySearch(first, 0, size, from);
        entry = entry >= 0 ? entry : Math.max(0, -entry - 2);
        while (entry < size && first[entry] < to) {
            if (end[entry] <= from) {
                entry++;
            } else if (first[entry] < from) {
                if (end[entry] > to) {
                    insert(entry + 1, to, end[entry], source[entry], number(entry, to));
                }
                end[entry] = from;
                entry++;
            } else if (end[entry] > to) {
                number[entry] = number(entry, to);
                first[entry] = to;
            } else {
                remove(entry);
            }
        }
    }

    private void insert(int place, int at, int until, Source of, long from) {
        if (size == first.length) {
            int length = size * 2;
            first = Arrays.copyOf(first, length);
            end = Arrays.copyOf(end, length);
            source = Arrays.copyOf(source, length);
            number = Arrays.copyOf(number, length);
        }
        move(place, place + 1, size - place);
        first[place] = at;
        end[place] = until;
        source[place] = of;
        number[place] = from;
        size++;
    }

    private void remove(int place) {
        move(place + 1, place, size - place - 1);
        size--;
    }

    private void move(int from, int to, int count) {
        System.arraycopy(first, from, first, to, count);
        System.arraycopy(end, from, end, to, count);
        System.arraycopy(source, from, source, to, count);
        System.arraycopy(number, from, number, to, count);
    }
}

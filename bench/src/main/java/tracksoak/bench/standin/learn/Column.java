package tracksoak.bench.standin.learn;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/** A list of numbers that grows, in little room. Confined to one thread. */
final class Column {

    private long[] values = new long[16];
    private int size;

    void add(long value) {
        if (size == values.length) {
            values = Arrays.copyOf(values, 2 * size);
        }
        values[size++] = value;
    }

    void setLast(long value) {
        values[size - 1] = value;
    }

    long get(int index) {
        return values[index];
    }

    int size() {
        return size;
    }

    boolean isEmpty() {
        return size == 0;
    }

    long last() {
        return values[size - 1];
    }

    /** The places of the values in order of their size, of equals as they came. */
    int[] order() {
        return IntStream.range(0, size)
                .boxed()
                .sorted(Comparator.comparingLong(this::get))
                .mapToInt(Integer::intValue)
                .toArray();
    }

    /** Puts the values into this order of their places. */
    void arrange(int[] order) {
        values = Arrays.stream(order).mapToLong(this::get).toArray();
    }

    /** The value in the middle; 0 where there is none. */
    long median() {
        return above(0.5);
    }

    /** The value that is above such a part of all; 0 where there is none. */
    long above(double part) {
        if (size == 0) {
            return 0;
        }
        long[] sorted = Arrays.copyOf(values, size);
        Arrays.sort(sorted);
        return sorted[(int) (size * part)];
    }

    /** The value that comes most often, the larger of equals; 0 where there is none. */
    long mode() {
        long[] sorted = Arrays.copyOf(values, size);
        Arrays.sort(sorted);
        long best = 0;
        int most = 0;
        int run = 0;
        for (int i = 0; i < size; i++) {
            run = i > 0 && sorted[i] == sorted[i - 1] ? run + 1 : 1;
            if (run >= most) {
                most = run;
                best = sorted[i];
            }
        }
        return best;
    }

    int count(long value) {
        int count = 0;
        for (int i = 0; i < size; i++) {
            count += values[i] == value ? 1 : 0;
        }
        return count;
    }
}

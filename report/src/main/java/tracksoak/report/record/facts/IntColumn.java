package tracksoak.report.record.facts;

import java.util.Arrays;
import java.util.stream.IntStream;

/** An immutable column of ints; a plain array of numbers in JSON. */
public final class IntColumn {

    private final int[] values;

    private IntColumn(int[] values) {
        this.values = values;
    }

    /** A column of a copy of {@code values}. */
    public static IntColumn of(int... values) {
        return new IntColumn(values.clone());
    }

    /** Number of entries. */
    public int size() {
        return values.length;
    }

    /** Entry {@code index}, from 0. */
    public int get(int index) {
        return values[index];
    }

    /** All entries in order. */
    public IntStream stream() {
        return Arrays.stream(values);
    }

    /** A copy of the entries. */
    public int[] toArray() {
        return values.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof IntColumn that && Arrays.equals(values, that.values);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(values);
    }

    @Override
    public String toString() {
        return values.length + " entries";
    }
}

package tracksoak.bench.standin.learn;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.Volume;
import tracksoak.bench.volume.VolumeFile;

/** Says which file, folder or table a place on the drive belongs to. Immutable. */
final class Owners {

    /** What a place belongs to that is no file. */
    static final int NOBODY = -1;

    static final int TABLE = -2;

    private final long[] start;
    private final long[] end;
    private final int[] owner;
    private final long[] position;
    private final Volume volume;

    Owners(Volume volume) {
        this.volume = volume;
        List<VolumeFile> files = volume.files();
        int count = volume.tables().size() + volume.bitmap().size();
        for (VolumeFile file : files) {
            count += file.extents().size();
        }
        long[][] rows = new long[count][];
        int row = 0;
        for (List<Extent> extents : List.of(volume.tables(), volume.bitmap())) {
            for (Extent extent : extents) {
                rows[row++] = new long[] {extent.startByte(), extent.endByte(), TABLE, 0};
            }
        }
        for (int i = 0; i < files.size(); i++) {
            long at = 0;
            for (Extent extent : files.get(i).extents()) {
                rows[row++] = new long[] {extent.startByte(), extent.endByte(), i, at};
                at += extent.lengthBytes();
            }
        }
        Arrays.sort(rows, Comparator.comparingLong((long[] one) -> one[0]));
        start = column(rows, 0);
        end = column(rows, 1);
        position = column(rows, 3);
        owner = new int[count];
        for (int i = 0; i < count; i++) {
            owner[i] = (int) rows[i][2];
        }
    }

    private static long[] column(long[][] rows, int column) {
        long[] values = new long[rows.length];
        for (int i = 0; i < rows.length; i++) {
            values[i] = rows[i][column];
        }
        return values;
    }

    Volume volume() {
        return volume;
    }

    /** Hears which bytes belong to whom. */
    @FunctionalInterface
    interface Part {

        /**
         * Some bytes of a request.
         *
         * @param owner number of the file, {@link #TABLE} or {@link #NOBODY}
         * @param position of the first byte in the file
         * @param bytes how many
         */
        void is(int owner, long position, long bytes);
    }

    /** Splits a request by its owners. */
    void split(long offset, long length, Part part) {
        long at = offset;
        long stop = offset + length;
        int row = Arrays.binarySearch(start, at);
        row = row >= 0 ? row : Math.max(0, -row - 2);
        while (at < stop) {
            while (row < start.length && end[row] <= at) {
                row++;
            }
            if (row == start.length || start[row] >= stop) {
                part.is(NOBODY, 0, stop - at);
                return;
            }
            if (start[row] > at) {
                part.is(NOBODY, 0, start[row] - at);
                at = start[row];
            }
            long until = Math.min(stop, end[row]);
            part.is(owner[row], position[row] + at - start[row], until - at);
            at = until;
        }
    }
}

package tracksoak.bench.standin;

import java.util.BitSet;

/**
 * Tells bytes that are written for the first time from those written again: what is new is nearly all audio, headers and tables
 * are written over and over. Memory is bounded. Confined to one thread.
 */
public final class FreshBytes {

    private static final int SECTOR = 512;
    private static final long MOST_UNITS = 1L << 27;

    private final BitSet written = new BitSet();
    private final long unitBytes;

    /** @param driveBytes size of the drive */
    public FreshBytes(long driveBytes) {
        long unit = SECTOR;
        while (driveBytes / unit >= MOST_UNITS) {
            unit *= 2;
        }
        unitBytes = unit;
    }

    /** Notes a write; how many of its bytes are new. */
    public long add(long offset, long bytes) {
        if (bytes <= 0) {
            return 0;
        }
        int from = (int) (offset / unitBytes);
        int to = (int) ((offset + bytes + unitBytes - 1) / unitBytes);
        int old = 0;
        for (int unit = written.nextSetBit(from); unit >= 0 && unit < to; unit = written.nextSetBit(unit + 1)) {
            old++;
        }
        written.set(from, to);
        return Math.max(0, Math.min(bytes, (to - from - old) * unitBytes));
    }
}

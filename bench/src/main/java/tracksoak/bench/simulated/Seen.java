package tracksoak.bench.simulated;

/** What a block of 4 KiB shows when it is read back. Reused for every block. */
public final class Seen {

    int block;
    boolean zeros;
    boolean flipped;
    boolean stale;

    Seen() {}

    void begin(int deviceBlock) {
        block = deviceBlock;
        zeros = false;
        flipped = false;
        stale = false;
    }

    /** The device block asked for, or the one shown in its place. */
    public int block() {
        return block;
    }

    /** Shows device block {@code other} instead. */
    public void showInstead(int other) {
        block = other;
    }

    /** Shows nothing but zeros. */
    public void showZeros() {
        zeros = true;
    }

    /** Shows a block with a bit flipped. */
    public void showFlipped() {
        flipped = true;
    }

    /** Shows what lay there before the last write. */
    public void showStale() {
        stale = true;
    }
}

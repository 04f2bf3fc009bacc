package tracksoak.bench.simulated.figures;

/** Integer arithmetic of bytes, rates and ns that does not overflow below 9 GB/s and 9 EB. */
public final class Rates {

    public static final long SECOND_NS = 1_000_000_000L;

    private Rates() {}

    /** Time {@code bytes} take at {@code bytesPerSecond}, in ns, rounded down. */
    public static long ns(long bytes, long bytesPerSecond) {
        return bytes / bytesPerSecond * SECOND_NS + bytes % bytesPerSecond * SECOND_NS / bytesPerSecond;
    }

    /** Bytes that pass in {@code ns} at {@code bytesPerSecond}, rounded down. */
    public static long bytes(long ns, long bytesPerSecond) {
        return ns / SECOND_NS * bytesPerSecond + ns % SECOND_NS * bytesPerSecond / SECOND_NS;
    }

    /** A well mixed 64-bit value: the finaliser of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014). */
    public static long mix(long value) {
        long z = (value ^ (value >>> 30)) * 0xbf58476d1ce4e5b9L;
        z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
        return z ^ (z >>> 31);
    }

    /** Whether {@code item} is one of the one in {@code oneIn} that chance, fixed by {@code seed}, picks. */
    public static boolean picks(long seed, long item, int oneIn) {
        return Long.remainderUnsigned(mix(seed + item * 0x9e3779b97f4a7c15L), oneIn) == 0;
    }
}

package tracksoak.bench.rig;

import java.util.Map;
import java.util.TreeMap;

/**
 * What is wrong with a drive, for {@link Backend#set}. Immutable. Times and byte counts run from the moment the drive is
 * told. A request already waiting in a hang goes on when other faults are set.
 */
public final class Faults {

    private final Map<String, Long> keys;

    private Faults(Map<String, Long> keys) {
        this.keys = keys;
    }

    /** A drive as fast as memory that does what it is told. */
    public static Faults none() {
        return new Faults(Map.of());
    }

    private Faults with(String key, long value) {
        Map<String, Long> more = new TreeMap<>(keys);
        more.put(key, value);
        return new Faults(more);
    }

    /** Writes at {@code bytesPerSecond}. */
    public Faults rate(long bytesPerSecond) {
        return with("rate", bytesPerSecond);
    }

    /** Reads at {@code bytesPerSecond}. */
    public Faults readRate(long bytesPerSecond) {
        return with("read_rate", bytesPerSecond);
    }

    /** After {@code cacheBytes} written, only {@code bytesPerSecond}. */
    public Faults cliff(long cacheBytes, long bytesPerSecond) {
        return with("cache_bytes", cacheBytes).with("slow_rate", bytesPerSecond);
    }

    /** A second cliff: after {@code bytes} in all, only {@code bytesPerSecond}. */
    public Faults secondCliff(long bytes, long bytesPerSecond) {
        return with("cache2_bytes", bytes).with("slow2_rate", bytesPerSecond);
    }

    /** Hot from {@code hot} bytes of heat until {@code cool}, and only {@code hotRate} meanwhile; loses {@code cooling} B/s. */
    public Faults heat(long hot, long cool, long cooling, long hotRate) {
        return with("hot_bytes", hot)
                .with("cool_bytes", cool)
                .with("cooling_rate", cooling)
                .with("hot_rate", hotRate);
    }

    /** A stall of {@code ms} after every {@code bytes} written, in writes that carry payload. */
    public Faults stallEveryBytes(long ms, long bytes) {
        return with("stall_ms", ms).with("stall_every_bytes", bytes);
    }

    /** A stall of {@code ms} every {@code everyMs}, in writes that carry payload. */
    public Faults stallEvery(long ms, long everyMs) {
        return with("stall_ms", ms).with("stall_every_ms", everyMs);
    }

    /** Asleep once no payload came for {@code idleMs}; the next then takes {@code wakeMs} longer. */
    public Faults asleepAfter(long idleMs, long wakeMs) {
        return with("stall_ms", wakeMs).with("stall_idle_ms", idleMs);
    }

    /** One stall of {@code ms} in the first write of payload {@code afterMs} from now. */
    public Faults stallOnce(long ms, long afterMs) {
        return with("stall_ms", ms).with("stall_after_ms", afterMs);
    }

    /** Fake capacity: addresses from {@code at} on land between {@code to} and {@code at}, in bytes. */
    public Faults wrap(long at, long to) {
        return with("wrap_at", at).with("wrap_to", to);
    }

    /** Fake capacity: what is written from {@code address} on is lost and reads as zeros. */
    public Faults dropFrom(long address) {
        return with("drop_from", address);
    }

    /** One bit wrong in one of {@code blocks} blocks of payload. */
    public Faults flipEvery(long blocks, long seed) {
        return with("flip_every", blocks).with("flip_seed", seed);
    }

    /** Every request fails with EIO from {@code afterMs} on. */
    public Faults eioAfterMs(long afterMs) {
        return with("eio_after_ms", afterMs);
    }

    /** Every request fails with EIO once {@code bytes} are written. */
    public Faults eioAfterBytes(long bytes) {
        return with("eio_after_bytes", bytes);
    }

    /** Only writes that carry payload fail, as with bad cells: the file system's own blocks go through. */
    public Faults eioForPayloadOnly() {
        return with("eio_marked_only", 1);
    }

    /** The first write from {@code afterMs} on hangs until other faults are set. */
    public Faults hangAfterMs(long afterMs) {
        return with("hang_after_ms", afterMs);
    }

    /** The first write after {@code bytes} written hangs until other faults are set. */
    public Faults hangAfterBytes(long bytes) {
        return with("hang_after_bytes", bytes);
    }

    /** A hang comes back after {@code ms}. */
    public Faults hangMs(long ms) {
        return with("hang_ms", ms);
    }

    /** Writes are refused with EROFS from {@code afterMs} on. */
    public Faults readOnlyAfterMs(long afterMs) {
        return with("ro_after_ms", afterMs);
    }

    /** The control file's text; {@code arm} differs from the one before. */
    String control(long arm) {
        StringBuilder text = new StringBuilder("arm=" + arm + "\n");
        keys.forEach((key, value) -> text.append(key).append('=').append(value).append('\n'));
        return text.toString();
    }

    @Override
    public String toString() {
        return keys.isEmpty() ? "none" : keys.toString();
    }
}

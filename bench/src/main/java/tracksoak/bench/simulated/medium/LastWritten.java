package tracksoak.bench.simulated.medium;

import java.util.Map;
import java.util.TreeMap;

/**
 * Which block was last written to each real one. A stretch that was written in one go is one entry however long it is, so that a drive of
 * terabytes takes little memory. Confined to one thread.
 */
public final class LastWritten {

    /**
     * A stretch of real blocks.
     *
     * @param end the first real block after it
     * @param block what was written to its first
     */
    private record Stretch(int end, int block) {}

    private final TreeMap<Integer, Stretch> stretches = new TreeMap<>();

    /** {@code blocks} blocks from {@code block} on were written to the real ones from {@code at} on. */
    public void wrote(int at, int blocks, int block) {
        int end = at + blocks;
        clear(at, end);
        int begin = at;
        Map.Entry<Integer, Stretch> before = stretches.lowerEntry(at);
        if (before != null && before.getValue().end() == at && shift(before) == block - at) {
            begin = before.getKey();
        }
        Map.Entry<Integer, Stretch> after = stretches.ceilingEntry(end);
        if (after != null && after.getKey() == end && shift(after) == block - at) {
            stretches.remove(end);
            end = after.getValue().end();
        }
        stretches.put(begin, new Stretch(end, begin + block - at));
    }

    private static int shift(Map.Entry<Integer, Stretch> entry) {
        return entry.getValue().block() - entry.getKey();
    }

    /** Forgets what lies from {@code from} to before {@code to}, cutting stretches that reach over. */
    private void clear(int from, int to) {
        Map.Entry<Integer, Stretch> reaching = stretches.lowerEntry(from);
        if (reaching != null && reaching.getValue().end() > from) {
            Stretch whole = reaching.getValue();
            stretches.put(reaching.getKey(), new Stretch(from, whole.block()));
            if (whole.end() > to) {
                stretches.put(to, new Stretch(whole.end(), whole.block() + (to - reaching.getKey())));
            }
        }
        Map.Entry<Integer, Stretch> inside = stretches.ceilingEntry(from);
        while (inside != null && inside.getKey() < to) {
            stretches.remove(inside.getKey());
            Stretch whole = inside.getValue();
            if (whole.end() > to) {
                stretches.put(to, new Stretch(whole.end(), whole.block() + (to - inside.getKey())));
            }
            inside = stretches.ceilingEntry(from);
        }
    }

    /** The block last written to a real one, negative if none was. */
    public int at(int real) {
        Map.Entry<Integer, Stretch> entry = stretches.floorEntry(real);
        return entry == null || entry.getValue().end() <= real
                ? -1
                : entry.getValue().block() + (real - entry.getKey());
    }
}

package tracksoak.bench.recorder.loop;

import java.util.List;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.StreamSpec;

/**
 * The timetable of a take: which chunk of which stream is complete when. All times are ns since the take began, all
 * arithmetic is exact.
 *
 * <p>Chunk k of stream i is ready at {@code offset_i + ⌈(k+1)·c_i·10⁹ ÷ r_i⌉}; the last one holds what is left and is
 * ready when the take ends. Nothing of it changes but its end, which may be drawn nearer while the take goes on.
 */
public final class StreamTable {

    private static final long SECOND = 1_000_000_000L;

    private final int streams;
    private final int[] tracks;
    private final long[] rate;
    private final int[] chunk;
    private final long[] offsetNs;
    private final long[] bufferBytes;
    private volatile long[] totalBytes;
    private volatile long lengthNs;

    /**
     * Lays out the timetable.
     *
     * @param specs the streams
     * @param chunkAlignment chunks are rounded up to a multiple of this, in bytes
     * @param arrival whether all streams tick together
     * @param bufferS the recorder's buffer per track, in s
     * @param lengthNs length of the take in ns
     * @throws IllegalArgumentException if a chunk does not fit in the buffer
     */
    public StreamTable(List<StreamSpec> specs, int chunkAlignment, Arrival arrival, double bufferS, long lengthNs) {
        this.streams = specs.size();
        this.tracks = new int[streams];
        this.rate = new long[streams];
        this.chunk = new int[streams];
        this.offsetNs = new long[streams];
        this.bufferBytes = new long[streams];
        this.lengthNs = lengthNs;
        for (int i = 0; i < streams; i++) {
            StreamSpec spec = specs.get(i);
            tracks[i] = spec.tracks();
            rate[i] = spec.bytesPerSecond();
            chunk[i] = roundUp(spec.chunkBytes(), chunkAlignment);
            offsetNs[i] = arrival == Arrival.STAGGERED ? timeOf(chunk[i], rate[i]) * i / streams : 0;
            bufferBytes[i] = (long) Math.floor(bufferS * rate[i]);
            if (bufferBytes[i] < chunk[i]) {
                throw new IllegalArgumentException("chunk " + chunk[i] + " B > buffer " + bufferBytes[i]
                        + " B of stream " + (i + 1) + ": the recorder could never hold a whole chunk");
            }
        }
        this.totalBytes = totals(lengthNs);
    }

    /**
     * Draws the end of the take nearer. What is ready before it stays as it was.
     *
     * @param endNs new length, in ns; not before now. A later end than the one it has is passed over
     */
    public void endBy(long endNs) {
        if (endNs < lengthNs) {
            totalBytes = totals(endNs);
            lengthNs = endNs;
        }
    }

    private long[] totals(long endNs) {
        long[] totals = new long[streams];
        for (int i = 0; i < streams; i++) {
            totals[i] = bytesIn(Math.max(0, endNs - offsetNs[i]), rate[i]);
        }
        return totals;
    }

    /** {@code bytes} rounded up to a multiple of {@code unit}. */
    public static int roundUp(int bytes, int unit) {
        return Math.toIntExact(((long) bytes + unit - 1) / unit * unit);
    }

    /** Number of streams. */
    public int streams() {
        return streams;
    }

    /** Tracks inside a stream. */
    public int tracks(int stream) {
        return tracks[stream];
    }

    /** Length of the take in ns. */
    public long lengthNs() {
        return lengthNs;
    }

    /** Rate of a stream in B/s. */
    public long rate(int stream) {
        return rate[stream];
    }

    /** Chunk of a stream in bytes, after rounding. */
    public int chunkBytes(int stream) {
        return chunk[stream];
    }

    /** Largest chunk of all streams in bytes. */
    public int largestChunkBytes() {
        int largest = 0;
        for (int bytes : chunk) {
            largest = Math.max(largest, bytes);
        }
        return largest;
    }

    /** What the recorder can hold of a stream in bytes. */
    public long bufferBytes(int stream) {
        return bufferBytes[stream];
    }

    /** What the stream makes in the whole take, in bytes. */
    public long totalBytes(int stream) {
        return totalBytes[stream];
    }

    /** Number of chunks of a stream, the last one may be short. */
    public long chunks(int stream) {
        return (totalBytes[stream] + chunk[stream] - 1) / chunk[stream];
    }

    /** Audio in a chunk, in bytes. */
    public int bytesOf(int stream, long index) {
        return (int) Math.min(chunk[stream], totalBytes[stream] - index * chunk[stream]);
    }

    /** When a chunk is complete, in ns since the take began. */
    public long readyNs(int stream, long index) {
        long end = (index + 1) * chunk[stream];
        return end > totalBytes[stream] ? lengthNs : offsetNs[stream] + timeOf(end, rate[stream]);
    }

    /** What a stream has made by {@code ns}, in bytes. */
    public long producedBytes(int stream, long ns) {
        long since = Math.min(ns, lengthNs) - offsetNs[stream];
        return since <= 0 ? 0 : Math.min(totalBytes[stream], bytesIn(since, rate[stream]));
    }

    /** When a stream has made {@code bytes}, in ns since the take began. */
    public long whenProducedNs(int stream, long bytes) {
        return offsetNs[stream] + timeOf(bytes, rate[stream]);
    }

    /** How long {@code bytes} of a stream last, in ms. */
    public double millis(int stream, long bytes) {
        return bytes * 1e3 / rate[stream];
    }

    private static long timeOf(long bytes, long rate) {
        long rest = bytes % rate;
        return bytes / rate * SECOND + (rest * SECOND + rate - 1) / rate;
    }

    private static long bytesIn(long ns, long rate) {
        return ns / SECOND * rate + ns % SECOND * rate / SECOND;
    }
}

package tracksoak.bench.oracle;

import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;

/**
 * The recorder once more, in plain arithmetic and without any of its classes: one chunk at a time, one lost chunk at a
 * time, everything looked up afresh. Knows the drive only as a server that takes so long. Times in ns since the take
 * began.
 */
final class BruteQueue {

    /** A drive: does the work and says how long it took, in ns; has nothing to do for {@code ns} on a pause. */
    interface Server {
        void pause(long ns);

        long write(int stream, int bytes) throws IOException;

        long flush(int stream) throws IOException;

        /** Rewrites all headers, flushes all files whole, closes them and syncs the folder. */
        long finish() throws IOException;
    }

    /** An interval in which something was ready and nothing got done. */
    record Wait(long fromNs, long toNs) {}

    /** Chunks lost between two moments at which nothing was waiting. */
    record Loss(long atNs, SortedMap<Integer, Long> bytes) {}

    private static final long SECOND = 1_000_000_000L;
    private static final int BLOCK = 4096;

    private final int streams;
    private final long[] rate;
    private final long[] chunk;
    private final long[] offset;
    private final long[] buffer;
    private final long[] total;
    private final BitSet[] dropped;
    private final BitSet[] written;
    private final long length;
    private final long stallLimit;
    private final long flushEvery;

    final long[] done;
    final long[] lost;
    final long[] peak;
    final List<Wait> stalls = new ArrayList<>();
    final List<Loss> losses = new ArrayList<>();
    long busyNs;
    long writtenBytes;
    long writes;
    double closeMs;
    /** Of every chunk, from ready to done. */
    final List<Long> responses = new ArrayList<>();
    /** Of every chunk, from called to done. */
    final List<Long> services = new ArrayList<>();
    /** Of every flush. */
    final List<Long> flushes = new ArrayList<>();

    long now;
    private final long[] flushed;
    private long lastDone;
    private int last;
    private @Nullable Loss open;

    BruteQueue(Session session, double seconds) {
        this(session, session.streams(), seconds);
    }

    /** A recorder that writes the mix of a session. */
    static BruteQueue mix(Session session, double seconds) {
        return new BruteQueue(session, session.mixStreams(), seconds);
    }

    private BruteQueue(Session session, List<StreamSpec> specs, double seconds) {
        streams = specs.size();
        rate = new long[streams];
        chunk = new long[streams];
        offset = new long[streams];
        buffer = new long[streams];
        total = new long[streams];
        done = new long[streams];
        lost = new long[streams];
        peak = new long[streams];
        flushed = new long[streams];
        last = streams - 1;
        dropped = new BitSet[streams];
        written = new BitSet[streams];
        length = Math.round(seconds * 1e9);
        stallLimit = session.stallLimitMs() * 1_000_000;
        flushEvery = (long) (session.flushS() * 1e9);
        for (int i = 0; i < streams; i++) {
            rate[i] = specs.get(i).bytesPerSecond();
            chunk[i] = padded(specs.get(i).chunkBytes());
            long period = timeUntil(chunk[i], rate[i]);
            offset[i] = session.arrival() == Arrival.STAGGERED ? period * i / streams : 0;
            buffer[i] = (long) (session.bufferS() * rate[i]);
            total[i] = made(i, length);
            dropped[i] = new BitSet();
            written[i] = new BitSet();
        }
    }

    /** The making of all files: the first thing a recorder does, while audio comes in already. */
    void makesFiles(long ns) {
        busyNs += within(now, now + ns);
        now += ns;
    }

    /** Plays the take. */
    void play(Server drive) throws IOException {
        while (now < length) {
            if (!writeOne(drive)) {
                long next = Math.min(length, earliestReady());
                drive.pause(next - now);
                now = next;
            }
        }
        settle();
    }

    /** Writes one chunk if one is ready, and flushes its file if that is due. */
    boolean writeOne(Server drive) throws IOException {
        int stream = choose(last, now);
        if (stream < 0) {
            return false;
        }
        serve(drive, stream);
        return true;
    }

    /** Brings everything up to {@link #now}, after the end of the take. */
    void settle() {
        for (int i = 0; i < streams; i++) {
            open = dropUntil(i, now, open);
            peak[i] = Math.max(peak[i], made(i, now) - done[i] - lost[i]);
        }
        if (open != null) {
            losses.add(open);
            open = null;
        }
    }

    /** Writes what is left, finishes all files and notes how long that took after the end of the take. */
    void close(Server drive) throws IOException {
        boolean more = true;
        while (more) {
            more = writeOne(drive);
        }
        now += drive.finish();
        closeMs = (now - length) / 1e6;
    }

    private void serve(Server drive, int stream) throws IOException {
        long waitingSince = Math.max(lastDone, earliestReady());
        long wasReady = ready(stream);
        int index = next(stream);
        long size = Math.min(chunk[stream], total[stream] - index * chunk[stream]);
        long service = drive.write(stream, padded(size));
        busyNs += within(now, now + service);
        now += service;
        services.add(service);
        responses.add(now - wasReady);
        for (int each = 0; each < streams; each++) {
            open = dropUntil(each, now, open);
        }
        peak[stream] = Math.max(peak[stream], made(stream, now) - done[stream] - lost[stream]);
        written[stream].set(index);
        done[stream] += size;
        writtenBytes += padded(size);
        writes++;
        if (now - waitingSince > stallLimit) {
            stalls.add(new Wait(waitingSince, now));
        }
        lastDone = now;
        if (open != null && choose(stream, now) < 0) {
            losses.add(open);
            open = null;
        }
        last = stream;
        if (flushEvery > 0 && now - flushed[stream] >= flushEvery) {
            long flush = drive.flush(stream);
            busyNs += within(now, now + flush);
            now += flush;
            flushes.add(flush);
            flushed[stream] = now;
        }
    }

    /** Largest backlog of any stream in ms of audio. */
    double peakMs() {
        double most = 0;
        for (int i = 0; i < streams; i++) {
            most = Math.max(most, peak[i] * 1e3 / rate[i]);
        }
        return most;
    }

    /** Audio lost by a stream in ms. */
    double lostMs(int stream) {
        return lost[stream] * 1e3 / rate[stream];
    }

    /** Audio lost on the worst stream of a loss in ms. */
    double worstMs(Loss loss) {
        return loss.bytes.entrySet().stream()
                .mapToDouble(each -> each.getValue() * 1e3 / rate[each.getKey()])
                .max()
                .orElse(0);
    }

    /** Drops, one by one, the chunks whose making overflows the buffer by {@code now}, and adds them to the loss. */
    private @Nullable Loss dropUntil(int stream, long now, @Nullable Loss before) {
        Loss loss = before;
        while (made(stream, now) > done[stream] + lost[stream] + buffer[stream]) {
            long full = done[stream] + lost[stream] + buffer[stream];
            int index = (int) (full / chunk[stream]);
            if (written[stream].get(index) || dropped[stream].get(index)) {
                throw new IllegalStateException("chunk " + index + " of stream " + stream + " is gone already");
            }
            long size = Math.min(chunk[stream], total[stream] - index * chunk[stream]);
            long fullAt = offset[stream] + timeUntil(full, rate[stream]);
            loss = loss == null ? new Loss(fullAt, new TreeMap<>()) : new Loss(Math.min(fullAt, loss.atNs), loss.bytes);
            loss.bytes.merge(stream, size, Long::sum);
            lost[stream] += size;
            dropped[stream].set(index);
            peak[stream] = Math.max(peak[stream], buffer[stream]);
        }
        return loss;
    }

    private int choose(int last, long now) {
        for (int turn = 1; turn <= streams; turn++) {
            int stream = (last + turn) % streams;
            if (ready(stream) <= now) {
                return stream;
            }
        }
        return -1;
    }

    /** When the next chunk is ready. */
    long earliestReady() {
        long earliest = Long.MAX_VALUE;
        for (int i = 0; i < streams; i++) {
            earliest = Math.min(earliest, ready(i));
        }
        return earliest;
    }

    private int next(int stream) {
        int index = written[stream].nextClearBit(Math.max(0, written[stream].length() - 1));
        while (dropped[stream].get(index)) {
            index++;
        }
        return index;
    }

    private long ready(int stream) {
        long index = next(stream);
        long end = (index + 1) * chunk[stream];
        if (index * chunk[stream] >= total[stream]) {
            return Long.MAX_VALUE;
        }
        return end > total[stream] ? length : offset[stream] + timeUntil(end, rate[stream]);
    }

    private long made(int stream, long at) {
        long since = Math.min(at, length) - offset[stream];
        if (since <= 0) {
            return 0;
        }
        return Math.multiplyExact(since, rate[stream]) / SECOND;
    }

    private long within(long from, long to) {
        return Math.max(0, Math.min(to, length) - Math.min(from, length));
    }

    private static long timeUntil(long bytes, long rate) {
        return (Math.multiplyExact(bytes, SECOND) + rate - 1) / rate;
    }

    private static int padded(long bytes) {
        return (int) ((bytes + BLOCK - 1) / BLOCK * BLOCK);
    }
}

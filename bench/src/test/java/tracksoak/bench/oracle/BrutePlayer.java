package tracksoak.bench.oracle;

import java.io.IOException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;

/**
 * The player once more, in plain arithmetic and without any of its classes: every chunk has a time at which it arrived,
 * or none; silence is found afterwards, chunk by chunk, from those times alone. Times in ns since the playback began.
 */
final class BrutePlayer {

    /** A drive: reads and says how long it took, in ns; has nothing to do for {@code ns} on a pause. */
    interface Server {
        void pause(long ns);

        long read(int stream, long at, int bytes) throws IOException;
    }

    /** An interval in which a chunk could be asked for and none arrived. */
    record Wait(long fromNs, long toNs) {}

    private static final long SECOND = 1_000_000_000L;
    private static final int BLOCK = 4096;

    final long[] read;
    final List<Wait> stalls = new ArrayList<>();
    /** Of every chunk, from when it could be asked for to when it came. */
    final List<Long> responses = new ArrayList<>();
    /** Of every chunk, from asked for to when it came. */
    final List<Long> services = new ArrayList<>();

    long now;
    long reads;
    long busyNs;
    double peakMs;
    double leastHeldMs = Double.MAX_VALUE;

    private final int streams;
    private final long length;
    private final long stallLimit;
    private final long[] rate;
    private final long[] chunk;
    private final long[] offset;
    private final long[] buffer;
    private final long[] total;
    private final List<List<Long>> arrivals = new ArrayList<>();
    private final BitSet[] asked;
    private int last;
    private long lastDone;

    BrutePlayer(Session session, double seconds) {
        List<StreamSpec> specs = session.streams();
        streams = specs.size();
        length = Math.round(seconds * 1e9);
        stallLimit = session.stallLimitMs() * 1_000_000;
        rate = new long[streams];
        chunk = new long[streams];
        offset = new long[streams];
        buffer = new long[streams];
        total = new long[streams];
        read = new long[streams];
        asked = new BitSet[streams];
        last = streams - 1;
        for (int i = 0; i < streams; i++) {
            rate[i] = specs.get(i).bytesPerSecond();
            chunk[i] = padded(specs.get(i).chunkBytes());
            offset[i] = session.arrival() == Arrival.STAGGERED ? time(chunk[i], rate[i]) * i / streams : 0;
            buffer[i] = (long) (session.bufferS() * rate[i]);
            total[i] = played(i, length, Long.MAX_VALUE);
            asked[i] = new BitSet();
            List<Long> times = new ArrayList<>();
            for (int n = 0; (long) n * chunk[i] < total[i]; n++) {
                boolean held = (n + 1) * chunk[i] <= buffer[i];
                times.add(held ? Long.MIN_VALUE : Long.MAX_VALUE);
                if (held) {
                    asked[i].set(n);
                }
            }
            leastHeldMs = Math.min(leastHeldMs, Math.min(total[i], asked[i].cardinality() * chunk[i]) * 1e3 / rate[i]);
            arrivals.add(times);
        }
    }

    void play(Server drive) throws IOException {
        while (now < length) {
            if (!readOne(drive)) {
                long next = Math.min(length, nextDue());
                drive.pause(next - now);
                now = next;
            }
        }
        settle();
    }

    /** Reads one chunk if one may be asked for. */
    boolean readOne(Server drive) throws IOException {
        int turn = -1;
        for (int step = 1; step <= streams && turn < 0; step++) {
            int stream = (last + step) % streams;
            turn = wanted(stream) >= 0 && due(stream, wanted(stream)) <= now ? stream : -1;
        }
        if (turn < 0) {
            return false;
        }
        long since = Long.MAX_VALUE;
        for (int i = 0; i < streams; i++) {
            since = firstUnasked(i) < 0 ? since : Math.min(since, due(i, firstUnasked(i)));
        }
        int n = wanted(turn);
        long service = drive.read(turn, n * chunk[turn], padded(size(turn, n)));
        busyNs += Math.min(now + service, length) - Math.min(now, length);
        now += service;
        services.add(service);
        responses.add(now - due(turn, n));
        last = turn;
        reads++;
        read[turn] += size(turn, n);
        long held = held(turn);
        peakMs = Math.max(peakMs, (buffer[turn] - held) * 1e3 / rate[turn]);
        leastHeldMs = Math.min(leastHeldMs, held * 1e3 / rate[turn]);
        asked[turn].set(0, n + 1);
        arrivals.get(turn).set(n, now);
        if (now - Math.max(since, lastDone) > stallLimit) {
            stalls.add(new Wait(Math.max(since, lastDone), now));
        }
        lastDone = now;
        return true;
    }

    /** When the next chunk may be asked for. */
    long nextDue() {
        long next = Long.MAX_VALUE;
        for (int i = 0; i < streams; i++) {
            next = wanted(i) < 0 ? next : Math.min(next, due(i, wanted(i)));
        }
        return next;
    }

    /** Brings everything up to {@link #now}, after the end of the playback. */
    void settle() {
        for (int i = 0; i < streams; i++) {
            int n = firstUnasked(i);
            if (n >= 0 && due(i, n) <= now) {
                peakMs = Math.max(peakMs, (buffer[i] - held(i)) * 1e3 / rate[i]);
                leastHeldMs = Math.min(leastHeldMs, held(i) * 1e3 / rate[i]);
            }
        }
    }

    /** Silence of a stream in bytes: of each chunk, what was to be played before it arrived. */
    long silentBytes(int stream) {
        long silent = 0;
        for (int n = 0; n < arrivals.get(stream).size(); n++) {
            silent += silentBytes(stream, n);
        }
        return silent;
    }

    /** Times a track ran dry: runs of silence, by the byte. */
    long underruns() {
        long count = 0;
        for (int i = 0; i < streams; i++) {
            boolean silentAtEnd = false;
            for (int n = 0; n < arrivals.get(i).size(); n++) {
                long silent = silentBytes(i, n);
                count += silent > 0 && !silentAtEnd ? 1 : 0;
                silentAtEnd = silent == size(i, n) || (silentAtEnd && silent == 0 && size(i, n) == 0);
            }
        }
        return count;
    }

    private long silentBytes(int stream, int n) {
        long arrived = arrivals.get(stream).get(n);
        if (arrived == Long.MIN_VALUE) {
            return 0;
        }
        long until = played(stream, Math.min(arrived, length), total[stream]);
        return Math.max(0, Math.min(until, n * chunk[stream] + size(stream, n)) - n * chunk[stream]);
    }

    /** The chunk a player would ask for now: the first not asked for whose audio is not over; -1 for none. */
    private int wanted(int stream) {
        for (int n = Math.max(0, asked[stream].length());
                n < arrivals.get(stream).size();
                n++) {
            if (n * chunk[stream] + chunk[stream] > played(stream, now, total[stream])) {
                return n;
            }
        }
        return -1;
    }

    private int firstUnasked(int stream) {
        int n = Math.max(0, asked[stream].length());
        return n < arrivals.get(stream).size() ? n : -1;
    }

    private long held(int stream) {
        long playing = played(stream, now, total[stream]);
        long end = 0;
        for (int n = 0; n < arrivals.get(stream).size(); n++) {
            if (arrivals.get(stream).get(n) != Long.MAX_VALUE) {
                end = n * chunk[stream] + size(stream, n);
            }
        }
        return Math.max(0, end - playing);
    }

    private long due(int stream, int n) {
        long end = n * chunk[stream] + size(stream, n);
        return offset[stream] + time(Math.max(0, end - buffer[stream]), rate[stream]);
    }

    private long size(int stream, int n) {
        return Math.min(chunk[stream], total[stream] - n * chunk[stream]);
    }

    private long played(int stream, long at, long most) {
        long since = Math.min(at, length) - offset[stream];
        return since <= 0 ? 0 : Math.min(most, Math.multiplyExact(since, rate[stream]) / SECOND);
    }

    private static long time(long bytes, long rate) {
        return (Math.multiplyExact(bytes, SECOND) + rate - 1) / rate;
    }

    private static int padded(long bytes) {
        return (int) ((bytes + BLOCK - 1) / BLOCK * BLOCK);
    }
}

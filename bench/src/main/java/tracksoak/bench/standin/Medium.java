package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.concurrent.TimeUnit;
import org.HdrHistogram.Histogram;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.standin.trace.TraceWriter;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;

/**
 * The drive itself: does one request after the other, in its manner, and writes down each. Times are on the clock it is given.
 * Confined to one thread.
 */
final class Medium {

    private static final long LONGEST_NS = TimeUnit.HOURS.toNanos(24);

    private final Store image;
    private final Manner manner;
    private final TraceWriter trace;
    private final NanoClock clock;
    private final StandInListener listener;
    private final RequestWatch watch;
    private final long zeroNs;
    private final Histogram service = new Histogram(LONGEST_NS, 3);
    private long freeNs;
    private long writes;
    private long writtenBytes;
    private long worstOwnNs;
    private boolean gone;

    Medium(
            Store image,
            Manner manner,
            TraceWriter trace,
            NanoClock clock,
            StandInListener listener,
            RequestWatch watch) {
        this.image = image;
        this.manner = manner;
        this.trace = trace;
        this.clock = clock;
        this.listener = listener;
        this.watch = watch;
        zeroNs = clock.nanoTime();
        freeNs = zeroNs;
    }

    /** When the trace began, on the clock. */
    long zeroNs() {
        return zeroNs;
    }

    /** Whether it was pulled out. */
    boolean gone() {
        return gone;
    }

    /** So many bytes. */
    long sizeBytes() {
        return image.sizeBytes();
    }

    /** Does a request; its {@code doneNs} then says when it may be answered, {@link Manner#NEVER} if never. */
    void perform(Request request) {
        long nowNs = clock.nanoTime();
        request.startedNs = Math.max(nowNs, freeNs);
        long serviceNs = 0;
        if (request.error == 0 && !inside(request)) {
            request.error = request.asked == Asked.READ ? Nbd.EINVAL : Nbd.ENOSPC;
        }
        if (request.error == 0) {
            try {
                serviceNs = manner.serviceNs(request.asked, request.startedNs - zeroNs, request.offset, request.length);
                if (serviceNs != Manner.NEVER) {
                    move(request);
                }
            } catch (Manner.Refused refused) {
                request.error = refused.error;
                serviceNs = refused.afterNs;
                gone |= refused.gone;
            } catch (IOException failed) {
                request.error = image.full(failed) ? Nbd.ENOSPC : Nbd.EIO;
                listener.trouble("The stand-in's own file cannot be read or written: " + Problem.reason(failed));
            }
        }
        if (serviceNs == Manner.NEVER || serviceNs > LONGEST_NS) {
            request.doneNs = Manner.NEVER;
            freeNs = Manner.NEVER;
            return;
        }
        long ownNs = clock.nanoTime() - nowNs;
        worstOwnNs = Math.max(worstOwnNs, ownNs);
        request.doneNs = request.startedNs + Math.max(ownNs, serviceNs);
        freeNs = request.doneNs;
    }

    private boolean inside(Request request) {
        return request.asked == Asked.FLUSH
                || (request.offset >= 0
                        && request.offset <= image.sizeBytes()
                        && request.length <= image.sizeBytes() - request.offset);
    }

    private void move(Request request) throws IOException {
        ByteBuffer data = request.data;
        switch (request.asked) {
            case READ -> {
                if (data != null) {
                    manner.read(image, data, request.offset);
                    data.flip();
                }
            }
            case WRITE -> {
                if (data != null) {
                    writes++;
                    writtenBytes += request.length;
                    manner.write(image, data, request.offset);
                }
            }
            case ZEROS -> image.zero(request.offset, request.length);
            case FLUSH -> image.flush();
            case TRIM, NOTE -> {} // bytes that are needed no longer may stay
        }
        if (request.throughout && request.asked != Asked.READ && request.asked != Asked.FLUSH) {
            image.flush();
        }
    }

    /** Writes down a request that is answered at {@code nowNs}. */
    void answered(Request request, long nowNs) {
        long servedNs = nowNs - request.startedNs;
        if (request.asked == Asked.NOTE) {
            return;
        }
        if (request.asked == Asked.WRITE) {
            service.recordValue(Math.min(LONGEST_NS, Math.max(0, servedNs)));
        }
        boolean placed = inside(request);
        Entry entry = new Entry(
                request.asked,
                request.throughout,
                request.error != 0,
                us(request.arrivedNs - zeroNs),
                placed && request.asked != Asked.FLUSH ? request.offset : 0,
                placed && request.asked != Asked.FLUSH ? request.length : 0,
                us(request.startedNs - request.arrivedNs),
                us(servedNs));
        trace.add(entry);
        watch.answered(entry);
    }

    /** Writes down something that happened. */
    void note(Note note, long value) {
        Entry entry = Entry.note(note, us(clock.nanoTime() - zeroNs), value);
        trace.add(entry);
        watch.answered(entry);
    }

    void saveTrace() {
        trace.save();
    }

    private static long us(long ns) {
        return Math.max(0, ns / 1000);
    }

    /** The figures so far. */
    Served served() {
        return new Served(
                writes,
                writtenBytes,
                service.getValueAtPercentile(50) / 1e6,
                service.getValueAtPercentile(99) / 1e6,
                service.getMaxValue() / 1e6,
                worstOwnNs / 1e6);
    }
}

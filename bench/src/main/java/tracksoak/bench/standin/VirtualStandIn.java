package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.standin.trace.TraceWriter;
import tracksoak.bench.volume.ByteSource;
import tracksoak.profiles.base.VirtualClock;

/** A stand-in on virtual time, for recorders on virtual time: the same drive without a network. Used by one thread. */
public final class VirtualStandIn implements AutoCloseable {

    private static final long PLAIN_NS = 100_000;
    private static final double PLAIN_BYTES_PER_NS = 0.2;

    private final Store store;
    private final VirtualClock clock;
    private final TraceWriter trace;
    private final Stops stops;
    private final Medium medium;

    /**
     * A drive that takes 0.1 ms and 200 MB/s for every request.
     *
     * @param tracePath a new file
     * @param watch sees every request
     */
    public VirtualStandIn(long sizeBytes, VirtualClock clock, Path tracePath, RequestWatch watch) throws IOException {
        this.store = new MemoryStore(sizeBytes);
        this.clock = clock;
        this.trace = new TraceWriter(tracePath, clock.epochMillis(), sizeBytes);
        this.stops = new Stops(
                new Manner() {
                    @Override
                    public long serviceNs(Asked asked, long startNs, long offset, long bytes) {
                        return PLAIN_NS + (long) (bytes / PLAIN_BYTES_PER_NS);
                    }
                },
                sizeBytes);
        this.medium = new Medium(store, stops.manner(), trace, clock, StandInListener.NONE, watch);
        stops.onBegin(us -> medium.note(Note.STOP, us));
    }

    /** Its stops. */
    public Stops stops() {
        return stops;
    }

    /** Its bytes. */
    public ByteSource bytes() {
        return store;
    }

    /** Notes something. */
    public void note(Note note, long value) {
        medium.note(note, value);
    }

    /**
     * Asks for something now.
     *
     * @param data what is written; null for audio, whose bytes nobody looks at
     * @return when it is done, on the clock
     */
    public long ask(Asked asked, long offset, long length, byte @Nullable [] data) {
        Request request = new Request(asked, false, 0, offset, length);
        request.data = data == null ? null : ByteBuffer.wrap(data);
        request.arrivedNs = clock.nanoTime();
        medium.perform(request);
        if (request.error != 0) {
            throw new IllegalArgumentException("the drive refuses " + asked + " of " + length + " bytes at " + offset);
        }
        medium.answered(request, request.doneNs);
        return request.doneNs;
    }

    /** Ends the trace, so that it can be read while the bytes are still there. */
    public void endTrace() throws IOException {
        trace.close();
    }

    @Override
    public void close() throws IOException {
        endTrace();
    }
}

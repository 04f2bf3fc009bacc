package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.recorder.watch.SleepProbe;
import tracksoak.bench.simulated.BareDrive;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.standin.trace.TraceWriter;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.HostDelays;

/** A stand-in that is served on this computer: its image, its trace, its server, and the watch over the computer itself. */
public final class StandIn implements AutoCloseable {

    private final SparseImage image;
    private final TraceWriter trace;
    private final Stops stops;
    private final Medium medium;
    private final StandInServer server;
    private final HostMonitor host;

    /**
     * Opens everything; {@link #serve} then serves.
     *
     * @param model what it behaves like; null for a plain good drive
     * @param tracePath a new file
     * @param door where it is called; closed with it
     */
    public StandIn(
            SparseImage image,
            Path tracePath,
            @Nullable DriveModel model,
            Door door,
            StandInListener listener,
            RequestWatch watch) {
        this.image = image;
        this.trace = trace(tracePath, image.sizeBytes());
        this.stops = new Stops(manner(model), image.sizeBytes());
        this.medium = new Medium(image, stops.manner(), trace, SystemClocks.NANO, listener, watch);
        this.server = new StandInServer(
                medium,
                model == null ? "a stand-in for a plain good drive" : "a stand-in for the simulated " + model.name(),
                model != null && model.rotational(),
                door,
                SystemClocks.NANO,
                SystemClocks.PARK,
                listener);
        stops.onBegin(us -> medium.note(Note.STOP, us));
        this.host = new HostMonitor(
                SystemClocks.NANO, SystemClocks.EPOCH, SystemClocks.PARK, SleepProbe.ofThisSystem(), true, () -> -1);
    }

    private static Manner manner(@Nullable DriveModel model) {
        return model == null ? Manner.GOOD : new SimulatedManner(new BareDrive(model));
    }

    private static TraceWriter trace(Path path, long bytes) {
        try {
            return new TraceWriter(path, SystemClocks.EPOCH.epochMillis(), bytes);
        } catch (FileAlreadyExistsException there) {
            throw Problem.askedWrong(
                    "The trace " + Inert.quoted(path) + " is there already, and nothing is written over",
                    "name another with --trace");
        } catch (IOException e) {
            throw Problem.cannot(
                    "The trace " + Inert.quoted(path) + " cannot be written: " + Problem.reason(e),
                    "name another with --trace");
        }
    }

    /** Size of the drive in bytes. */
    public long sizeBytes() {
        return image.sizeBytes();
    }

    /** The port it listens on. */
    public int port() {
        return server.port();
    }

    /** Serves until {@link #stop}, on this thread. */
    public void serve() {
        server.run();
    }

    /** Ends it soon. Any thread. */
    public void stop() {
        server.stop();
    }

    /** Its stops, to be asked for by what sees the requests, or by an {@link #soon errand}. */
    public Stops stops() {
        return stops;
    }

    /** Has something done by the thread that serves. Any thread. */
    public void soon(Runnable errand) {
        server.soon(errand);
    }

    /** Notes something in the trace; by the thread that serves. */
    public void note(Note note, long value) {
        medium.note(note, value);
    }

    /** Knows when this computer was late, in ns since the trace began. */
    public HostWatch hostWatch() {
        return host.since(medium.zeroNs());
    }

    /** Now, in µs since the trace began. */
    public long nowUs() {
        return (SystemClocks.NANO.nanoTime() - medium.zeroNs()) / 1000;
    }

    /** What was done so far. */
    public Served served() {
        return medium.served();
    }

    /** What the computer itself did meanwhile. */
    public HostDelays host() {
        return host.facts();
    }

    /** Lets go of everything; what was written is on this computer's disk then. */
    @Override
    public void close() {
        server.close();
        host.close();
        try {
            trace.close();
            image.flush();
            image.close();
        } catch (IOException e) {
            throw Problem.cannot(
                    "The image or the trace could not be kept whole: " + Problem.reason(e),
                    "make room on this computer's disk and record again");
        }
    }
}

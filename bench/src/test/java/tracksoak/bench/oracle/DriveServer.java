package tracksoak.bench.oracle;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.VirtualClock;

/**
 * A simulated drive, plugged in afresh, as the server of a brute-force queue: one file per stream, written in a row, in one
 * pass after the other. Nothing but the drive's behaviours says how long a call takes.
 */
final class DriveServer implements BruteQueue.Server {

    private static final int HEADER = Stamp.BLOCK;
    private static final int PIECE = 1 << 20;

    private final VirtualClock clock = new VirtualClock(0);
    private final SimulatedDrive drive;
    private final ByteBuffer buffer = Stamp.ordered(ByteBuffer.allocate(4 << 20));
    private final ByteBuffer back = Stamp.ordered(ByteBuffer.allocate(PIECE));
    private final List<Closed> closed = new ArrayList<>();
    private OpenFile[] files = {};
    private int made;

    private record OpenFile(String name, DriveFile file) {}

    private record Closed(String name, long bytes) {}

    private long[] positions = {};

    private DriveServer(DriveModel model) {
        drive = model.plug(clock, LoopRun.HANG_LIMIT_NS);
        Stamp.header(buffer, 0, 1, 1, 1, 0);
    }

    DriveServer(DriveModel model, int streams) throws IOException {
        this(model);
        begin(streams);
    }

    /** One on which nothing was made yet. */
    static DriveServer plugged(DriveModel model) {
        return new DriveServer(model);
    }

    /** Makes the files of a pass. */
    void begin(int streams) throws IOException {
        files = new OpenFile[streams];
        positions = new long[streams];
        for (int i = 0; i < streams; i++) {
            open(i);
        }
    }

    /** Lays single blocks before anything else is written: they take no time, but the drive has written them. */
    void probe(int blocks) throws IOException {
        drive.steer(0.5);
        try (DriveFile probes = drive.create("probes")) {
            for (int i = 0; i < blocks; i++) {
                probes.write(buffer.limit(Stamp.BLOCK).position(0), (long) i * Stamp.BLOCK);
            }
        }
        drive.steer(0);
    }

    /** Syncs the folder, as a take does before it starts. */
    DriveServer synced() throws IOException {
        drive.syncFolder();
        return this;
    }

    /** Time since the drive was plugged in, in ns. */
    long nowNs() {
        return clock.nanoTime();
    }

    @Override
    public long finish() throws IOException {
        long from = clock.nanoTime();
        for (int i = 0; i < files.length; i++) {
            header(i);
        }
        for (OpenFile each : files) {
            each.file.flush(true);
        }
        for (int i = 0; i < files.length; i++) {
            close(i);
        }
        drive.syncFolder();
        return clock.nanoTime() - from;
    }

    /** The same, one file after the other. */
    void finishInTurn() throws IOException {
        for (int i = 0; i < files.length; i++) {
            finish(i);
        }
        drive.syncFolder();
    }

    @Override
    public long write(int stream, int bytes) throws IOException {
        long from = clock.nanoTime();
        put(stream, bytes);
        return clock.nanoTime() - from;
    }

    @Override
    public long flush(int stream) throws IOException {
        long from = clock.nanoTime();
        files[stream].file.flush(false);
        return clock.nanoTime() - from;
    }

    @Override
    public void pause(long ns) {
        clock.advance(ns);
    }

    /** Reads every closed file, in the order in which they were closed, in pieces of 1 MiB; then deletes them all. */
    void readBackAndDelete() throws IOException {
        for (Closed each : closed) {
            try (DriveFile file = drive.open(each.name)) {
                for (long at = 0; at < each.bytes; at += PIECE) {
                    file.read(back.clear().limit((int) Math.min(PIECE, each.bytes - at)), HEADER + at);
                }
            }
        }
        for (Closed each : closed) {
            drive.delete(each.name);
        }
        drive.syncFolder();
        closed.clear();
    }

    private void open(int stream) throws IOException {
        String name = "file-" + made++;
        files[stream] = new OpenFile(name, drive.create(name));
        positions[stream] = 0;
        put(stream, HEADER);
    }

    private void put(int stream, int bytes) throws IOException {
        files[stream].file.write(buffer.limit(bytes).position(0), positions[stream]);
        positions[stream] += bytes;
    }

    private void header(int stream) throws IOException {
        files[stream].file.write(buffer.limit(HEADER).position(0), 0);
    }

    private void finish(int stream) throws IOException {
        header(stream);
        files[stream].file.flush(true);
        close(stream);
    }

    private void close(int stream) throws IOException {
        files[stream].file.close();
        closed.add(new Closed(files[stream].name, positions[stream] - HEADER));
    }
}

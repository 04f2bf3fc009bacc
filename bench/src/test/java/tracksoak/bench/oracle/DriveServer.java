package tracksoak.bench.oracle;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.VirtualClock;

/** A simulated drive, plugged in afresh, as the server of a brute-force queue: one file per stream, written in a row. */
final class DriveServer implements BruteQueue.Server {

    private final VirtualClock clock = new VirtualClock(0);
    private final SimulatedDrive drive;
    private final DriveFile[] files;
    private final long[] positions;
    private final ByteBuffer buffer = Stamp.ordered(ByteBuffer.allocate(4 << 20));

    DriveServer(DriveModel model, int streams) throws IOException {
        drive = model.plug(clock, LoopRun.HANG_LIMIT_NS);
        files = new DriveFile[streams];
        positions = new long[streams];
        Stamp.header(buffer, 0, 1, 1, 1, 0);
        for (int i = 0; i < streams; i++) {
            files[i] = drive.create("stream-" + i);
            write(i, Stamp.BLOCK);
        }
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
        for (DriveFile file : files) {
            file.write(buffer.limit(Stamp.BLOCK).position(0), 0);
        }
        for (DriveFile file : files) {
            file.flush(true);
        }
        for (DriveFile file : files) {
            file.close();
        }
        drive.syncFolder();
        return clock.nanoTime() - from;
    }

    @Override
    public long write(int stream, int bytes) throws IOException {
        long from = clock.nanoTime();
        files[stream].write(buffer.limit(bytes).position(0), positions[stream]);
        positions[stream] += bytes;
        return clock.nanoTime() - from;
    }

    @Override
    public long flush(int stream) throws IOException {
        long from = clock.nanoTime();
        files[stream].flush(false);
        return clock.nanoTime() - from;
    }

    @Override
    public void pause(long ns) {
        clock.advance(ns);
    }
}

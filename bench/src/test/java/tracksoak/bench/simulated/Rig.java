package tracksoak.bench.simulated;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.stream.BlockChecker;
import tracksoak.bench.stream.BlockState;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.VirtualClock;

/** A simulated drive with a stopwatch, for tests. */
final class Rig {

    static final long RUN = 0x7a11_0000_0000_0001L;
    static final long SECOND = 1_000_000_000L;
    static final long HANG_LIMIT = 60 * SECOND;

    final VirtualClock clock = new VirtualClock(0);
    final SimulatedDrive drive;
    private final ByteBuffer buffer = Stamp.ordered(ByteBuffer.allocate(4 << 20));

    Rig(DriveModel model) {
        drive = model.plug(clock, HANG_LIMIT);
    }

    static Rig of(Behaviour... behaviours) {
        return new Rig(DriveModel.of("rig", "for a test", 42, 64L << 30, behaviours));
    }

    /** Writes a stamped chunk and returns how long it took, in ns. */
    long write(DriveFile file, long position, int stream, int pass, int bytes) throws IOException {
        buffer.clear();
        for (int at = 0; at < bytes; at += Stamp.BLOCK) {
            Stamp.header(buffer, at, RUN, stream, pass, (position + at) / Stamp.BLOCK);
        }
        long from = clock.nanoTime();
        file.write(buffer.limit(bytes).position(0), position);
        return clock.nanoTime() - from;
    }

    /** Writes {@code bytes} one chunk after the other from {@code position} on; returns how long it took, in ns. */
    long fill(DriveFile file, long position, long bytes, int chunk) throws IOException {
        long from = clock.nanoTime();
        for (long at = position; at < position + bytes; at += chunk) {
            write(file, at, 0, 0, chunk);
        }
        return clock.nanoTime() - from;
    }

    /** Reads {@code bytes} at once and returns how long it took, in ns. */
    long read(DriveFile file, long position, int bytes) throws IOException {
        long from = clock.nanoTime();
        file.read(buffer.limit(bytes).position(0), position);
        return clock.nanoTime() - from;
    }

    /** Reads one block as the bench does and says what it is. */
    BlockState check(DriveFile file, long block, int stream, int pass) throws IOException {
        buffer.limit(Stamp.BLOCK).position(0);
        file.read(buffer, block * Stamp.BLOCK);
        buffer.clear();
        return new BlockChecker(RUN, false).check(buffer, 0, stream, pass, block);
    }
}

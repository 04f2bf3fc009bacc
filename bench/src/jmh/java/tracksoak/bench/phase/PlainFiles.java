package tracksoak.bench.phase;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.stream.AlignedBuffer;

/** The plain loop to compare with: one prefilled buffer, written to the end of each file in turn, nothing else done. */
final class PlainFiles implements AutoCloseable {

    private final ByteBuffer buffer;
    private final List<DriveFile> files = new ArrayList<>();
    private final int chunk;
    private long rounds;
    private int next;

    PlainFiles(Drive drive, int howMany, int chunk) throws IOException {
        this.chunk = chunk;
        this.buffer = AlignedBuffer.allocate(chunk, drive.alignmentBytes());
        SplittableRandom random = new SplittableRandom(42);
        for (int at = 0; at < chunk; at += Long.BYTES) {
            buffer.putLong(at, random.nextLong());
        }
        for (int file = 0; file < howMany; file++) {
            files.add(drive.create("plain-" + file + ".soak"));
        }
    }

    void writeOne() throws IOException {
        files.get(next).write(buffer.clear(), rounds * chunk);
        next++;
        if (next == files.size()) {
            next = 0;
            rounds++;
        }
    }

    @Override
    public void close() throws IOException {
        for (DriveFile file : files) {
            file.close();
        }
    }
}

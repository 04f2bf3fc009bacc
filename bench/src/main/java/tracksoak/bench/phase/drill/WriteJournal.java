package tracksoak.bench.phase.drill;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.PassingDrive;
import tracksoak.bench.drive.io.PassingFile;
import tracksoak.profiles.base.NanoClock;

/**
 * A drive of which it is written down what it has confirmed: per file the end of the last write that came back, and that of
 * the last one before a flush that came back. Adds one clock read and no allocation to a write. Thread-safe.
 */
final class WriteJournal extends PassingDrive {

    private final NanoClock clock;
    private final Map<String, Entry> entries = new ConcurrentHashMap<>();
    private volatile long lastDoneNs;

    WriteJournal(Drive drive, NanoClock clock) {
        super(drive);
        this.clock = clock;
        this.lastDoneNs = clock.nanoTime();
    }

    /** When the last call that came back well did so, on the clock. */
    long lastDoneNs() {
        return lastDoneNs;
    }

    /** End of what had been flushed in a file, in bytes; 0 for a file that is not known. */
    long flushedBytes(String name) {
        Entry entry = entries.get(name);
        return entry == null ? 0 : entry.flushed;
    }

    private void cameBack() {
        lastDoneNs = clock.nanoTime();
    }

    @Override
    public DriveFile create(String name) throws IOException {
        DriveFile file = drive.create(name);
        cameBack();
        Entry entry = new Entry(file);
        entries.put(name, entry);
        return entry;
    }

    @Override
    public void syncFolder() throws IOException {
        drive.syncFolder();
        cameBack();
    }

    private final class Entry extends PassingFile {
        private volatile long written;
        private volatile long flushed;

        private Entry(DriveFile file) {
            super(file);
        }

        @Override
        public void write(ByteBuffer source, long position) throws IOException {
            long end = position + source.remaining();
            file.write(source, position);
            cameBack();
            written = Math.max(written, end);
        }

        @Override
        public void flush(boolean withMetadata) throws IOException {
            long before = written;
            file.flush(withMetadata);
            cameBack();
            flushed = before;
        }
    }
}

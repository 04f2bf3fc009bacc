package tracksoak.bench.phase;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import tracksoak.bench.drive.Drive;
import tracksoak.bench.drive.DriveFile;
import tracksoak.bench.recorder.NanoClock;
import tracksoak.report.record.IoMode;

/**
 * A drive of which it is written down what it has confirmed: per file the end of the last write that came back, and that of
 * the last one before a flush that came back. Adds one clock read and no allocation to a write. Thread-safe.
 */
final class Diary implements Drive {

    private final Drive drive;
    private final NanoClock clock;
    private final Map<String, Entry> entries = new ConcurrentHashMap<>();
    private volatile long lastDoneNs;

    Diary(Drive drive, NanoClock clock) {
        this.drive = drive;
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
    public DriveFile open(String name) throws IOException {
        return drive.open(name);
    }

    @Override
    public List<String> list() throws IOException {
        return drive.list();
    }

    @Override
    public void delete(String name) throws IOException {
        drive.delete(name);
    }

    @Override
    public void syncFolder() throws IOException {
        drive.syncFolder();
        cameBack();
    }

    @Override
    public long usableBytes() throws IOException {
        return drive.usableBytes();
    }

    @Override
    public int alignmentBytes() {
        return drive.alignmentBytes();
    }

    @Override
    public IoMode ioMode() {
        return drive.ioMode();
    }

    @Override
    public String ioReason() {
        return drive.ioReason();
    }

    @Override
    public Optional<Counters> counters() {
        return drive.counters();
    }

    @Override
    public Presence presence() {
        return drive.presence();
    }

    @Override
    public boolean keepsBodies() {
        return drive.keepsBodies();
    }

    @Override
    public void forgetCached() {
        drive.forgetCached();
    }

    @Override
    public void close() throws IOException {
        drive.close();
    }

    private final class Entry implements DriveFile {
        private final DriveFile file;
        private volatile long written;
        private volatile long flushed;

        private Entry(DriveFile file) {
            this.file = file;
        }

        @Override
        public void write(ByteBuffer source, long position) throws IOException {
            long end = position + source.remaining();
            file.write(source, position);
            cameBack();
            written = Math.max(written, end);
        }

        @Override
        public int read(ByteBuffer target, long position) throws IOException {
            return file.read(target, position);
        }

        @Override
        public void flush(boolean withMetadata) throws IOException {
            long before = written;
            file.flush(withMetadata);
            cameBack();
            flushed = before;
        }

        @Override
        public long size() throws IOException {
            return file.size();
        }

        @Override
        public void close() throws IOException {
            file.close();
        }
    }
}

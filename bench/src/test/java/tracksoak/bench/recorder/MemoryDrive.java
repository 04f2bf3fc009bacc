package tracksoak.bench.recorder;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.IoMode;

/** A drive in memory on virtual time: the test says how long every call takes and what goes wrong. */
public final class MemoryDrive implements Drive {

    /** How long a call takes. */
    public interface Cost {
        long ns(long nowNs, int bytes) throws IOException;
    }

    /** Changes what is kept. */
    public interface Tamper {
        void change(String name, long position, byte[] data);
    }

    private final VirtualClock clock;
    private final Map<String, Contents> files = new TreeMap<>();
    private final List<String> open = new ArrayList<>();
    private Cost writeCost = (now, bytes) -> 0;
    private Tamper tamper = (name, position, data) -> {};
    private Presence presence = Presence.PRESENT;
    private long written;
    private long read;
    private long capacity = 1L << 30;

    public MemoryDrive(VirtualClock clock) {
        this.clock = clock;
    }

    public MemoryDrive writing(Cost cost) {
        writeCost = cost;
        return this;
    }

    public MemoryDrive tampering(Tamper newTamper) {
        tamper = newTamper;
        return this;
    }

    public MemoryDrive being(Presence newPresence) {
        presence = newPresence;
        return this;
    }

    public MemoryDrive holding(long bytes) {
        capacity = bytes;
        return this;
    }

    /** Names of files nobody has closed. */
    public List<String> leftOpen() {
        return List.copyOf(open);
    }

    @Override
    public DriveFile create(String name) throws IOException {
        if (files.putIfAbsent(name, new Contents()) != null) {
            throw new FileAlreadyExistsException(name);
        }
        open.add(name);
        return new MemoryFile(name);
    }

    @Override
    public DriveFile open(String name) throws IOException {
        if (!files.containsKey(name)) {
            throw new NoSuchFileException(name);
        }
        open.add(name);
        return new MemoryFile(name);
    }

    @Override
    public List<String> list() {
        return List.copyOf(files.keySet());
    }

    @Override
    public void delete(String name) {
        files.remove(name);
    }

    @Override
    public void syncFolder() {}

    @Override
    public long usableBytes() {
        return capacity - files.values().stream().mapToLong(file -> file.length).sum();
    }

    @Override
    public int alignmentBytes() {
        return 4096;
    }

    @Override
    public IoMode ioMode() {
        return IoMode.SIMULATED;
    }

    @Override
    public String ioReason() {
        return "a drive in memory";
    }

    @Override
    public Optional<Counters> counters() {
        return Optional.of(new Counters(written, read));
    }

    @Override
    public Presence presence() {
        return presence;
    }

    @Override
    public void forgetCached() {}

    @Override
    public void close() {}

    /** What a file holds; it has room to grow, so that appending does not copy all that is there. */
    private static final class Contents {
        private byte[] bytes = new byte[0];
        private int length;

        private void keep(byte[] data, int position) {
            int end = Math.addExact(position, data.length);
            if (end > bytes.length) {
                bytes = Arrays.copyOf(bytes, Math.max(end, 2 * length));
            }
            System.arraycopy(data, 0, bytes, position, data.length);
            length = Math.max(length, end);
        }
    }

    private final class MemoryFile implements DriveFile {
        private final String name;

        private MemoryFile(String name) {
            this.name = name;
        }

        @Override
        public void write(ByteBuffer source, long position) throws IOException {
            byte[] data = new byte[source.remaining()];
            source.get(data);
            clock.advance(writeCost.ns(clock.nanoTime(), data.length));
            tamper.change(name, position, data);
            files.computeIfAbsent(name, none -> new Contents()).keep(data, Math.toIntExact(position));
            written += data.length;
        }

        @Override
        public int read(ByteBuffer target, long position) {
            Contents kept = contents();
            int length = (int) Math.max(0, Math.min(target.remaining(), kept.length - position));
            target.put(kept.bytes, (int) Math.min(position, kept.length), length);
            read += length;
            return length;
        }

        @Override
        public void flush(boolean withMetadata) {
            // costs nothing here
        }

        @Override
        public long size() {
            return contents().length;
        }

        @Override
        public void close() {
            open.remove(name);
        }

        private Contents contents() {
            return files.getOrDefault(name, new Contents());
        }
    }
}

package tracksoak.bench.recorder;

import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.IoMode;

/** A drive that keeps nothing and takes 10 µs of virtual time per write: what is measured is the bench alone. */
public final class NullDrive implements Drive, DriveFile {

    private final VirtualClock clock;

    public NullDrive(VirtualClock clock) {
        this.clock = clock;
    }

    @Override
    public DriveFile create(String name) {
        return this;
    }

    @Override
    public DriveFile open(String name) {
        return this;
    }

    @Override
    public void write(ByteBuffer source, long position) {
        source.position(source.limit());
        clock.advance(10_000);
    }

    @Override
    public int read(ByteBuffer target, long position) {
        return 0;
    }

    @Override
    public void flush(boolean withMetadata) {}

    @Override
    public long size() {
        return 0;
    }

    @Override
    public List<String> list() {
        return List.of();
    }

    @Override
    public void delete(String name) {}

    @Override
    public void syncFolder() {}

    @Override
    public long usableBytes() {
        return Long.MAX_VALUE;
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
        return "keeps nothing";
    }

    @Override
    public Optional<Counters> counters() {
        return Optional.empty();
    }

    @Override
    public Presence presence() {
        return Presence.PRESENT;
    }

    @Override
    public void forgetCached() {}

    @Override
    public void close() {}
}

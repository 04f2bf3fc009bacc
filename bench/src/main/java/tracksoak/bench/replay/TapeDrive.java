package tracksoak.bench.replay;

import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.IoMode;

/** A drive that keeps nothing and takes as long as a tape says. Its files' headers cost nothing. */
final class TapeDrive implements Drive {

    private final VirtualClock clock;
    private final Timing timing;
    private final int alignment;

    TapeDrive(VirtualClock clock, Timing timing, int alignment) {
        this.clock = clock;
        this.timing = timing;
        this.alignment = alignment;
    }

    @Override
    public DriveFile create(String name) {
        return new TapeFile();
    }

    @Override
    public DriveFile open(String name) {
        return new TapeFile();
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
        return alignment;
    }

    @Override
    public IoMode ioMode() {
        return IoMode.SIMULATED;
    }

    @Override
    public String ioReason() {
        return "";
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
    public boolean keepsBodies() {
        return false;
    }

    @Override
    public void forgetCached() {}

    @Override
    public void close() {}

    private final class TapeFile implements DriveFile {

        @Override
        public void write(ByteBuffer source, long position) {
            if (position > 0) {
                clock.advance(timing.writeNs(clock.nanoTime()));
            }
            source.position(source.limit());
        }

        @Override
        public int read(ByteBuffer target, long position) {
            return 0;
        }

        @Override
        public void flush(boolean withMetadata) {
            clock.advance(timing.flushNs(clock.nanoTime()));
        }

        @Override
        public long size() {
            return 0;
        }

        @Override
        public void close() {}
    }
}

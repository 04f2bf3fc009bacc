package tracksoak.bench.rig;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;
import tracksoak.bench.drive.Drive;
import tracksoak.bench.drive.DriveFile;
import tracksoak.report.record.IoMode;

/** A drive that leaves out what lies between the header of a file and {@code from}: large files in no time. */
final class HollowDrive implements Drive {

    private final Drive drive;
    private final long from;

    HollowDrive(Drive drive, long from) {
        this.drive = drive;
        this.from = from;
    }

    @Override
    public DriveFile create(String name) throws IOException {
        DriveFile file = drive.create(name);
        return new DriveFile() {
            @Override
            public void write(ByteBuffer source, long position) throws IOException {
                if (position < 2L * alignmentBytes() || position >= from) {
                    file.write(source, position);
                } else {
                    source.position(source.limit());
                }
            }

            @Override
            public int read(ByteBuffer target, long position) throws IOException {
                return file.read(target, position);
            }

            @Override
            public void flush(boolean withMetadata) throws IOException {
                file.flush(withMetadata);
            }

            @Override
            public long size() throws IOException {
                return file.size();
            }

            @Override
            public void close() throws IOException {
                file.close();
            }
        };
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
    public void forgetCached() {
        drive.forgetCached();
    }

    @Override
    public void close() throws IOException {
        drive.close();
    }
}

package tracksoak.bench.recorder.watch;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.PassingDrive;

/** A drive every call to which is known to a {@link CallWatch}. Adds two clock reads and no allocation to a write. */
public final class WatchedDrive extends PassingDrive {

    private final CallWatch watch;

    /** Watches {@code drive}. */
    public WatchedDrive(Drive drive, CallWatch watch) {
        super(drive);
        this.watch = watch;
    }

    @Override
    public DriveFile create(String name) throws IOException {
        return watched("making of " + name, () -> new WatchedFile(drive.create(name), name));
    }

    @Override
    public DriveFile open(String name) throws IOException {
        return watched("opening of " + name, () -> new WatchedFile(drive.open(name), name));
    }

    @Override
    public List<String> list() throws IOException {
        return watched("listing of the folder", drive::list);
    }

    @Override
    public void delete(String name) throws IOException {
        watched("deleting of " + name, () -> {
            drive.delete(name);
            return true;
        });
    }

    @Override
    public void syncFolder() throws IOException {
        watched("flush of the folder", () -> {
            drive.syncFolder();
            return true;
        });
    }

    @Override
    public long usableBytes() throws IOException {
        return watched("asking for free room", drive::usableBytes);
    }

    @Override
    public void forgetCached() {
        CallWatch.Slot slot = watch.slot();
        slot.enter("emptying of the host's memory");
        try {
            drive.forgetCached();
        } finally {
            slot.leave();
        }
    }

    @Override
    public void close() throws IOException {
        watched("letting go of the drive", () -> {
            drive.close();
            return true;
        });
    }

    private interface DriveCall<T> {
        T call() throws IOException;
    }

    private <T> T watched(String what, DriveCall<T> call) throws IOException {
        CallWatch.Slot slot = watch.slot();
        slot.enter(what);
        try {
            return call.call();
        } finally {
            slot.leave();
        }
    }

    private final class WatchedFile implements DriveFile {
        private final DriveFile file;
        private final String writing;
        private final String reading;
        private final String flushing;
        private final String extending;
        private final String closing;

        private WatchedFile(DriveFile file, String name) {
            this.file = file;
            this.writing = "write to " + name;
            this.reading = "read from " + name;
            this.flushing = "flush of " + name;
            this.extending = "giving room to " + name;
            this.closing = "closing of " + name;
        }

        @Override
        public void write(ByteBuffer source, long position) throws IOException {
            CallWatch.Slot slot = watch.slot();
            slot.enter(writing);
            try {
                file.write(source, position);
            } finally {
                slot.leave();
            }
        }

        @Override
        public int read(ByteBuffer target, long position) throws IOException {
            CallWatch.Slot slot = watch.slot();
            slot.enter(reading);
            try {
                return file.read(target, position);
            } finally {
                slot.leave();
            }
        }

        @Override
        public void flush(boolean withMetadata) throws IOException {
            watched(flushing, () -> {
                file.flush(withMetadata);
                return true;
            });
        }

        @Override
        public boolean extend(long bytes) throws IOException {
            return watched(extending, () -> file.extend(bytes));
        }

        @Override
        public boolean lengthen(long bytes) throws IOException {
            return watched(extending, () -> file.lengthen(bytes));
        }

        @Override
        public void giveBack(long from, long bytes) throws IOException {
            watched(extending, () -> {
                file.giveBack(from, bytes);
                return true;
            });
        }

        @Override
        public void trim(long bytes) throws IOException {
            watched(extending, () -> {
                file.trim(bytes);
                return true;
            });
        }

        @Override
        public long size() throws IOException {
            return watched(reading, file::size);
        }

        @Override
        public void close() throws IOException {
            watched(closing, () -> {
                file.close();
                return true;
            });
        }
    }
}

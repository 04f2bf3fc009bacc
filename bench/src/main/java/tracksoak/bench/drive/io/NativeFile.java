package tracksoak.bench.drive.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * One file on a real drive, by the kernel's own calls: past the host's memory, or through it and waited for. Positions and
 * lengths are whole stamped blocks, at any cluster size. Allocates nothing while it writes and reads whole buffers from
 * position 0.
 */
final class NativeFile implements DriveFile {

    private static final int CLOSED = -1;

    private final AtomicInteger file;
    private final boolean direct;

    private NativeFile(int file, boolean direct) {
        this.file = new AtomicInteger(file);
        this.direct = direct;
    }

    /** Makes a new file for writing and reading past the memory. An existing name, also a link, is refused. */
    static NativeFile create(Path path) throws IOException {
        return new NativeFile(Libc.opened(path, Libc.O_RDWR | Libc.O_CREAT | Libc.O_EXCL | Libc.O_DIRECT), true);
    }

    /** The same through the memory: a write waits until the device has it, and no room is given in advance. */
    static NativeFile createThrough(Path path) throws IOException {
        return new NativeFile(Libc.opened(path, Libc.O_RDWR | Libc.O_CREAT | Libc.O_EXCL | Libc.O_DSYNC), false);
    }

    /** Opens an existing file for reading; a link is refused. */
    static NativeFile open(Path path) throws IOException {
        return new NativeFile(Libc.opened(path, Libc.O_RDONLY | Libc.O_DIRECT), true);
    }

    @Override
    public void write(ByteBuffer source, long position) throws IOException {
        if (position < 0 || position % Writing.UNIT != 0 || source.remaining() % Writing.UNIT != 0) {
            throw RealFile.unaligned(source, position);
        }
        long at = position;
        while (source.hasRemaining()) {
            int done = result(Libc.pwrite(handle(), fromHere(source), source.remaining(), at));
            if (done == 0) {
                throw new IOException("a write took nothing");
            }
            source.position(source.position() + done);
            at += done;
        }
    }

    @Override
    public int read(ByteBuffer target, long position) throws IOException {
        int total = 0;
        while (target.hasRemaining()) {
            int got = result(Libc.pread(handle(), fromHere(target), target.remaining(), position + total));
            target.position(target.position() + got);
            total += got;
            if (got == 0 || total % Writing.UNIT != 0) {
                // a direct read ends unaligned only at the end of the file, and cannot go on from there
                break;
            }
        }
        return total;
    }

    @Override
    public void flush(boolean withMetadata) throws IOException {
        if (withMetadata) {
            check(Libc.fsync(handle()));
        } else {
            check(Libc.fdatasync(handle()));
        }
    }

    @Override
    public boolean extend(long bytes) throws IOException {
        if (!direct) {
            return false;
        }
        if (Libc.fallocate(handle(), Libc.FALLOC_FL_KEEP_SIZE, 0, bytes) == 0) {
            return true;
        }
        if (Libc.unable()) {
            return false;
        }
        throw Libc.failed();
    }

    @Override
    public boolean lengthen(long bytes) throws IOException {
        if (!direct) {
            return false;
        }
        if (Libc.ftruncate(handle(), bytes) == 0) {
            return true;
        }
        if (Libc.unable()) {
            return false;
        }
        throw Libc.failed();
    }

    @Override
    public void giveBack(long from, long bytes) throws IOException {
        check(Libc.fallocate(handle(), Libc.FALLOC_FL_KEEP_SIZE | Libc.FALLOC_FL_PUNCH_HOLE, from, bytes));
    }

    @Override
    public void trim(long bytes) throws IOException {
        check(Libc.ftruncate(handle(), bytes));
    }

    @Override
    public long size() throws IOException {
        long end = Libc.lseek(handle(), 0, Libc.SEEK_END);
        if (end < 0) {
            throw Libc.failed();
        }
        return end;
    }

    @Override
    public void close() throws IOException {
        int closing = file.getAndSet(CLOSED);
        if (closing != CLOSED) {
            check(Libc.close(closing));
        }
    }

    private int handle() throws ClosedChannelException {
        int open = file.get();
        if (open == CLOSED) {
            throw new ClosedChannelException();
        }
        return open;
    }

    /** The kernel is given the address of position 0. */
    private static ByteBuffer fromHere(ByteBuffer buffer) {
        return buffer.position() == 0 ? buffer : buffer.slice();
    }

    private static int result(long bytes) throws IOException {
        if (bytes < 0) {
            throw Libc.failed();
        }
        return (int) bytes;
    }

    private static void check(int answer) throws IOException {
        if (answer < 0) {
            throw Libc.failed();
        }
    }
}

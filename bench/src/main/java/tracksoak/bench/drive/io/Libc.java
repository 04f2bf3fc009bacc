package tracksoak.bench.drive.io;

import com.sun.jna.Native;
import com.sun.jna.Platform;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import tracksoak.bench.drive.io.NoPlaceException.Lack;

/**
 * Linux's own file calls, as in its manual pages. The JDK's direct I/O asks for whole clusters, the kernel for the sectors of
 * the device only; and the JDK has no call that gives a file space in advance. Calls with buffers and numbers allocate
 * nothing. On other systems, and where the machine's constants are not known here, {@link #HERE} is false.
 */
final class Libc {

    /** Whether these calls can be made on this machine. */
    static final boolean HERE = loaded();

    static final int O_RDONLY = 0;
    static final int O_RDWR = 2;
    static final int O_CREAT = 0x40;
    static final int O_EXCL = 0x80;
    static final int O_DSYNC = 0x1000;

    /** As the kernel's headers have them (asm/fcntl.h): ARM has its own, the rest of what we ship for the generic ones. */
    static final int O_DIRECT = Platform.isARM() ? 0x10000 : 0x4000;

    static final int O_NOFOLLOW = Platform.isARM() ? 0x8000 : 0x20000;
    static final int O_CLOEXEC = 0x80000;
    static final int FALLOC_FL_KEEP_SIZE = 1;
    static final int FALLOC_FL_PUNCH_HOLE = 2;
    static final int SEEK_END = 2;

    private static final int ENOENT = 2;
    private static final int EEXIST = 17;
    private static final int EFBIG = 27;
    private static final int ENOSPC = 28;
    private static final int ENOSYS = 38;
    private static final int EOPNOTSUPP = 95;
    private static final int EDQUOT = 122;
    private static final int USER_READS_AND_WRITES = 0x180;

    private Libc() {}

    static native int open(byte[] path, int flags, int mode);

    static native int close(int file);

    static native long pwrite(int file, ByteBuffer buffer, long bytes, long position);

    static native long pread(int file, ByteBuffer buffer, long bytes, long position);

    static native int fsync(int file);

    static native int fdatasync(int file);

    static native int ftruncate(int file, long bytes);

    static native int fallocate(int file, int mode, long position, long bytes);

    static native long lseek(int file, long position, int from);

    private static native String strerror(int error);

    /** Opens a file; the caller closes it. */
    static int opened(Path path, int flags) throws IOException {
        int file = open(bytes(path), flags | O_NOFOLLOW | O_CLOEXEC, USER_READS_AND_WRITES);
        if (file >= 0) {
            return file;
        }
        int error = Native.getLastError();
        throw switch (error) {
            case EEXIST -> new FileAlreadyExistsException(path.toString());
            case ENOENT -> new NoSuchFileException(path.toString());
            default -> failed(error);
        };
    }

    /** What the last call of this thread answered. */
    static IOException failed() {
        return failed(Native.getLastError());
    }

    /** Whether the last call of this thread was one that the file system does not have, or for which it has no room. */
    static boolean unable() {
        int error = Native.getLastError();
        return error == EOPNOTSUPP || error == ENOSYS || error == ENOSPC || error == EFBIG || error == EDQUOT;
    }

    private static IOException failed(int error) {
        String words = strerror(error);
        return switch (error) {
            case ENOSPC -> new NoPlaceException(Lack.ROOM, words);
            case EFBIG -> new NoPlaceException(Lack.LENGTH, words);
            case EDQUOT -> new NoPlaceException(Lack.QUOTA, words);
            default -> new IOException(words);
        };
    }

    /** The name as the kernel has it, ended by a 0; a path's text may have lost bytes that this locale has no letters for. */
    static byte[] bytes(Path path) {
        String escaped = path.toUri().getRawPath();
        ByteArrayOutputStream raw = new ByteArrayOutputStream();
        for (int i = 0; i < escaped.length(); i++) {
            if (escaped.charAt(i) == '%') {
                raw.write(Integer.parseInt(escaped.substring(i + 1, i + 3), 16));
                i += 2;
            } else {
                raw.writeBytes(escaped.substring(i, i + 1).getBytes(StandardCharsets.UTF_8));
            }
        }
        raw.write(0);
        return raw.toByteArray();
    }

    private static boolean loaded() {
        try {
            boolean known = Platform.isLinux()
                    && Platform.is64Bit()
                    && (Platform.isIntel() || Platform.isARM() || Platform.ARCH.startsWith("riscv"));
            if (known) {
                Native.register(Libc.class, "c");
            }
            return known;
        } catch (LinkageError | RuntimeException e) {
            // without the library the JDK's own way is taken
            return false;
        }
    }
}

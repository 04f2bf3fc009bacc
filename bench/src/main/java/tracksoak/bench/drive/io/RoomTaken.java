package tracksoak.bench.drive.io;

import com.sun.jna.Native;
import com.sun.jna.Platform;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;

/** The room a file takes on its drive, which for one with holes is less than its length. Stateless. */
public final class RoomTaken {

    private static final boolean HERE = loaded();

    /** As in Linux's statx(2) and its header linux/stat.h, the same on every machine. */
    private static final int AT_FDCWD = -100;

    private static final int AT_SYMLINK_NOFOLLOW = 0x100;
    private static final int STATX_BLOCKS = 0x400;
    private static final int STRUCT_BYTES = 256;
    private static final int BLOCKS_AT = 48;
    private static final int BLOCK = 512;

    private RoomTaken() {}

    /** Room the file itself takes, in bytes; its length where the system does not tell. A link is not followed. */
    public static long of(Path file) throws IOException {
        ByteBuffer facts = ByteBuffer.allocateDirect(STRUCT_BYTES).order(ByteOrder.nativeOrder());
        return HERE
                        && statx(AT_FDCWD, Libc.bytes(file.toAbsolutePath()), AT_SYMLINK_NOFOLLOW, STATX_BLOCKS, facts)
                                == 0
                        && (facts.getInt(0) & STATX_BLOCKS) != 0
                ? facts.getLong(BLOCKS_AT) * BLOCK
                : Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS)
                        .size();
    }

    private static native int statx(int folder, byte[] path, int flags, int mask, ByteBuffer facts);

    private static boolean loaded() {
        try {
            if (Platform.isLinux()) {
                Native.register(RoomTaken.class, "c");
            }
            return Platform.isLinux();
        } catch (LinkageError | RuntimeException e) {
            // an older library has no such call
            return false;
        }
    }
}

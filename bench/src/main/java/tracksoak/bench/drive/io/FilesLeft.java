package tracksoak.bench.drive.io;

import com.sun.jna.Native;
import com.sun.jna.Platform;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** How many more files a file system takes that has a table of fixed size for them: it can be full while room is left. Stateless. */
public final class FilesLeft {

    private static final boolean HERE = loaded();

    /** Others make room for files as they come, or tell a number that means nothing. */
    private static final Set<String> FIXED = Set.of("ext2", "ext3", "ext4", "xfs", "f2fs");

    /** As the C library's statvfs(3) has it on 64-bit Linux: long words, of which these count all files and those this user may still make. */
    private static final int STRUCT_BYTES = 256;

    private static final int FILES_AT = 40;
    private static final int LEFT_AT = 56;

    private FilesLeft() {}

    /**
     * How many more files this user may make on the file system that {@code folder} lies on; null where the system does not
     * tell. May wait for the drive.
     *
     * @param type of the file system, as it is mounted
     */
    public static @Nullable Long in(Path folder, @Nullable String type) {
        if (!HERE || type == null || !FIXED.contains(type)) {
            return null;
        }
        ByteBuffer facts = ByteBuffer.allocateDirect(STRUCT_BYTES).order(ByteOrder.nativeOrder());
        boolean told = statvfs(Libc.bytes(folder.toAbsolutePath()), facts) == 0 && facts.getLong(FILES_AT) > 0;
        return told ? (Long) facts.getLong(LEFT_AT) : null;
    }

    private static native int statvfs(byte[] path, ByteBuffer facts);

    private static boolean loaded() {
        try {
            boolean known = Platform.isLinux() && Platform.is64Bit();
            if (known) {
                Native.register(FilesLeft.class, "c");
            }
            return known;
        } catch (LinkageError | RuntimeException e) {
            return false;
        }
    }
}

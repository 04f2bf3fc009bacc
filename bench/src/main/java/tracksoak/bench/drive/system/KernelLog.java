package tracksoak.bench.drive.system;

import com.sun.jna.Native;
import com.sun.jna.Platform;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** What Linux's kernel has said of a device since it was plugged in; nothing where this user may not know. */
public final class KernelLog {

    private static final int READ_ALL = 3;
    private static final int MOST_BYTES = 1 << 20;
    private static final boolean HERE = loaded();

    private KernelLog() {}

    private static native int klogctl(int type, byte[] buffer, int bytes);

    /** The whole log as it is now, null where it cannot be read. Never waits. */
    static @Nullable String text() {
        if (!HERE) {
            return null;
        }
        byte[] buffer = new byte[MOST_BYTES];
        int got = klogctl(READ_ALL, buffer, buffer.length);
        return got < 0 ? null : new String(buffer, 0, got, StandardCharsets.UTF_8);
    }

    /**
     * Whether the kernel found a volume not unmounted in order when it was mounted last, or met errors in it since.
     *
     * @param log the whole log
     * @param disk name of the disk, for example {@code sdb}
     * @param volume name of the volume, for example {@code sdb1}
     */
    public static boolean foundDirty(String log, String disk, String volume) {
        Pattern attached = Pattern.compile("\\[" + Pattern.quote(disk) + "\\] Attached ");
        Pattern dirty = Pattern.compile("-fs \\(" + Pattern.quote(volume)
                + "\\): (Volume was not properly unmounted|error, |Filesystem has been set read-only)");
        boolean found = false;
        for (String line : log.split("\n", -1)) {
            if (attached.matcher(line).find()) {
                found = false;
            }
            found |= dirty.matcher(line).find();
        }
        return found;
    }

    private static boolean loaded() {
        try {
            if (Platform.isLinux()) {
                Native.register(KernelLog.class, "c");
                return true;
            }
            return false;
        } catch (LinkageError | RuntimeException e) {
            // nothing is known of the log then
            return false;
        }
    }
}

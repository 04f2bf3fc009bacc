package tracksoak.bench.tray;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.OwnersOnly;

/**
 * Something that processes share, in equal parts. Whoever holds a part has locked a byte of a file, which the system takes back from a
 * process that dies. The file must not be opened twice by one process: closing it would give all of its parts back. One thread.
 */
final class Parts implements AutoCloseable {

    private final FileChannel channel;
    private final int all;
    private final Deque<FileLock> held = new ArrayDeque<>();

    Parts(Path file, int all) throws IOException {
        this.channel = OwnersOnly.lockFile(file);
        this.all = all;
    }

    int all() {
        return all;
    }

    /**
     * Holds so many of them from now on, whatever it held before. Fewer are given back at once; where more cannot be had, it holds what
     * it held.
     *
     * @return whether it holds them
     */
    boolean hold(int parts) throws IOException {
        int before = held.size();
        for (int part = 0; part < all && held.size() < parts; part++) {
            FileLock lock = lock(part);
            if (lock != null) {
                held.addLast(lock);
            }
        }
        boolean all = held.size() >= parts;
        keep(all ? parts : before);
        return all;
    }

    private void keep(int parts) throws IOException {
        while (held.size() > parts) {
            held.removeLast().release();
        }
    }

    private @Nullable FileLock lock(int part) throws IOException {
        try {
            return channel.tryLock(part, 1, false);
        } catch (OverlappingFileLockException ofThisProcess) {
            return null;
        }
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException gone) {
            // the system takes the locks back when the process ends
        }
    }
}

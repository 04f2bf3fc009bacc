package tracksoak.bench.drive.folder;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.OwnersOnly;

/**
 * Keeps two runs off one drive: a lock of the operating system on a file of this computer, named after the whole disk. It
 * goes when the process ends, however it ends. The file itself stays, since deleting it could let two runs in.
 */
public final class RunLock implements AutoCloseable {

    /** The byte that is locked lies far behind the text, which others can then read on every system. */
    private static final long LOCKED_BYTE = 1L << 40;

    private static final Pattern KEY = Pattern.compile("[A-Za-z0-9-]{1,80}");
    private static final int LONGEST = 200;

    private final FileChannel channel;

    private RunLock(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Takes the lock of a disk.
     *
     * @param state a folder of this computer for locks; made if need be
     * @param lockKey names the disk
     * @param runId the run, for the message others get
     * @throws DriveInUseException if another run has it
     * @throws IOException if the folder cannot be used
     */
    public static RunLock take(Path state, String lockKey, String runId) throws IOException {
        if (!KEY.matcher(lockKey).matches()) {
            throw new IllegalArgumentException("no key of a disk: " + Inert.text(lockKey));
        }
        FileChannel channel = OwnersOnly.lockFile(state.resolve("locks").resolve(lockKey + ".lock"));
        try {
            if (locked(channel) == null) {
                throw new DriveInUseException(who(channel));
            }
            byte[] text =
                    ("run " + runId + ", process " + ProcessHandle.current().pid()).getBytes(StandardCharsets.UTF_8);
            channel.truncate(0).write(ByteBuffer.wrap(text), 0);
            return new RunLock(channel);
        } catch (IOException | RuntimeException e) {
            channel.close();
            throw e;
        }
    }

    private static @Nullable FileLock locked(FileChannel channel) throws IOException {
        try {
            return channel.tryLock(LOCKED_BYTE, 1, false);
        } catch (OverlappingFileLockException e) {
            return null;
        }
    }

    private static String who(FileChannel channel) throws IOException {
        ByteBuffer text = ByteBuffer.allocate(LONGEST);
        channel.read(text, 0);
        String who = Inert.text(new String(text.array(), 0, text.position(), StandardCharsets.UTF_8));
        return who.isBlank() ? "another run" : who;
    }

    /** Whether the lock is still held. */
    public boolean held() {
        return channel.isOpen();
    }

    /** Lets the next run in. */
    @Override
    public void close() throws IOException {
        channel.close();
    }

    /** Another run is on this drive. */
    public static final class DriveInUseException extends IOException {
        DriveInUseException(String who) {
            super("the drive is in use by " + who + ": wait until it ends, or end it");
        }
    }
}

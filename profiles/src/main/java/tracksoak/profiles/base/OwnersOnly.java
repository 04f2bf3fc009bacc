package tracksoak.profiles.base;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Set;

/**
 * Keeps files and folders to their owner, where the system has such a thing: whoever may so much as read a file can hold a lock on it, and
 * notes and names are the crew's own. What belongs to somebody else stays as it is. Any thread.
 */
public final class OwnersOnly {

    private static final Set<PosixFilePermission> FILE =
            EnumSet.of(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE);
    private static final Set<PosixFilePermission> FOLDER = EnumSet.of(
            PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE, PosixFilePermission.OWNER_EXECUTE);

    private OwnersOnly() {}

    /**
     * Makes a file, and its folder, for their owner alone where they are not there yet; a file that others may read is closed to
     * them. Its folder, which may be a shared one, is left as it is. What a database keeps beside the file gets the same rights.
     */
    public static void file(Path file) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        if (folder != null) {
            Files.createDirectories(folder, rights(file, FOLDER));
        }
        try {
            Files.createFile(file, rights(file, FILE));
        } catch (FileAlreadyExistsException there) {
            close(file);
        } catch (AccessDeniedException notAllowed) {
            return; // whoever opens it says it in its own words
        }
    }

    /**
     * Makes a folder of ours, with all above it that are missing, for its owner alone; one that is there is closed to others.
     *
     * @return the folder
     */
    public static Path folder(Path folder) throws IOException {
        Files.createDirectories(folder, rights(folder, FOLDER));
        close(folder);
        return folder;
    }

    /** Opens a file of ours to be locked, in its {@link #folder}: nobody else can hold it. */
    public static FileChannel lockFile(Path file) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        if (folder != null) {
            folder(folder);
        }
        FileChannel channel = FileChannel.open(
                file,
                Set.of(StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE),
                rights(file, FILE));
        close(file);
        return channel;
    }

    /** Closes a file or folder that is there to all but its owner. A link to a folder leads to a place that somebody chose: that stays. */
    public static void close(Path path) {
        try {
            boolean folder = Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS);
            if (!posix(path) || (!folder && !Files.isRegularFile(path))) {
                return;
            }
            Set<PosixFilePermission> now = Files.getPosixFilePermissions(path);
            Set<PosixFilePermission> kept = EnumSet.noneOf(PosixFilePermission.class);
            kept.addAll(now);
            kept.retainAll(folder ? FOLDER : FILE);
            if (!kept.equals(now) && Files.isWritable(path)) {
                Files.setPosixFilePermissions(path, kept);
            }
        } catch (IOException notOurs) {
            return; // somebody else's, or on a file system without such rights
        }
    }

    /** Whether the system has such a thing there. */
    public static boolean posix(Path path) {
        return path.getFileSystem().supportedFileAttributeViews().contains("posix");
    }

    static FileAttribute<?>[] rights(Path path, Set<PosixFilePermission> rights) {
        return posix(path)
                ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(rights)}
                : new FileAttribute<?>[0];
    }
}

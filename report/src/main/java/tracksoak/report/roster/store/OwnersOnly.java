package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Set;

/** Keeps a roster's file to its owner, where the system has such a thing: notes and names in it are the crew's own. Stateless. */
final class OwnersOnly {

    private static final Set<PosixFilePermission> FILE =
            EnumSet.of(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE);
    private static final Set<PosixFilePermission> FOLDER = EnumSet.of(
            PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE, PosixFilePermission.OWNER_EXECUTE);

    private OwnersOnly() {}

    /**
     * Makes the file, and its folder, for their owner alone where they are not there yet; a file that others may read is closed to them. What the
     * database keeps beside the file gets the same rights.
     */
    static void make(Path file) throws IOException {
        boolean posix = file.getFileSystem().supportedFileAttributeViews().contains("posix");
        Path folder = file.toAbsolutePath().getParent();
        if (folder != null) {
            Files.createDirectories(folder, rights(posix, FOLDER));
        }
        try {
            Files.createFile(file, rights(posix, FILE));
        } catch (FileAlreadyExistsException there) {
            close(file, posix);
        } catch (AccessDeniedException notAllowed) {
            return; // the database says it in its own words
        }
    }

    private static void close(Path file, boolean posix) throws IOException {
        if (!posix || !Files.isRegularFile(file)) {
            return;
        }
        Set<PosixFilePermission> now = Files.getPosixFilePermissions(file);
        Set<PosixFilePermission> kept = EnumSet.noneOf(PosixFilePermission.class);
        kept.addAll(now);
        kept.retainAll(FILE);
        if (!kept.equals(now) && Files.isWritable(file)) {
            tryTo(file, kept);
        }
    }

    /** Somebody else's file, or one on a file system without such rights, stays as it is. */
    private static boolean tryTo(Path file, Set<PosixFilePermission> rights) {
        try {
            Files.setPosixFilePermissions(file, rights);
            return true;
        } catch (IOException notOurs) {
            return false;
        }
    }

    private static FileAttribute<?>[] rights(boolean posix, Set<PosixFilePermission> rights) {
        return posix ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(rights)} : new FileAttribute<?>[0];
    }
}

package tracksoak.bench.drive.folder;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.io.RoomTaken;
import tracksoak.profiles.base.Inert;

/**
 * A folder that the bench made on a drive: how much lies in it, and its deleting. Nothing is deleted if it holds what the
 * bench did not put there, and no link is followed. Callers bring the patience for a drive that does not answer.
 *
 * @param path where it lies
 */
record OwnFolder(Path path) {

    /** What a run writes; and what macOS puts beside it on drives that are not its own. */
    private static final Pattern OF_A_RUN = Pattern.compile("(\\._)?[a-z0-9][a-z0-9-]{0,100}\\.soak");

    /**
     * What a file system of a program (libfuse) or of a network leaves for a file that was deleted while somebody had it
     * open. It goes when they let go; where that program was killed before, it stays until somebody deletes it.
     */
    private static final Pattern DELETED = Pattern.compile("\\.(fuse_hidden[0-9a-f]{16}|nfs[0-9a-f]{16,24})");

    private static final int MOST_NAMED = 5;

    /** Room it takes, in bytes. */
    long bytes() throws IOException {
        long sum = 0;
        for (Path file : files()) {
            sum += RoomTaken.of(file);
        }
        return sum;
    }

    /**
     * Deletes it with all that is in it.
     *
     * @param last name of the file that goes last: what is left after a power cut is then recognised again
     * @throws LeftOver.NotOursException if something else lies in it
     * @throws LeftOver.InUseException if a file stays because a program has it open; {@code last} stays too
     */
    void delete(String last) throws IOException {
        List<Path> files = files();
        List<String> others = names(files, file -> !ours(file, last));
        if (!others.isEmpty()) {
            throw new LeftOver.NotOursException(path, others);
        }
        for (Path file : files) {
            if (!isNamed(file, last)) {
                Files.delete(file);
            }
        }
        List<String> held = names(files(), file -> !isNamed(file, last));
        if (!held.isEmpty()) {
            throw new LeftOver.InUseException(path, held);
        }
        Files.deleteIfExists(path.resolve(last));
        Files.delete(path);
        // a journal takes deletions on a drive that is gone: only this tells
        RealDrive.sync(path.resolveSibling(""));
    }

    private static boolean ours(Path file, String last) {
        return (isNamed(file, last)
                        || isNamed(file, "._" + last)
                        || OF_A_RUN.matcher(nameOf(file)).matches()
                        || DELETED.matcher(nameOf(file)).matches())
                && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
    }

    private static boolean isNamed(Path file, String name) {
        return nameOf(file).equals(name);
    }

    private static String nameOf(Path file) {
        return String.valueOf(file.getFileName());
    }

    private static List<String> names(List<Path> files, Predicate<Path> which) {
        return files.stream()
                .filter(which)
                .limit(MOST_NAMED)
                .map(file -> Inert.text(nameOf(file)))
                .toList();
    }

    private List<Path> files() throws IOException {
        List<Path> files = new ArrayList<>();
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(path)) {
            entries.forEach(files::add);
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        return files;
    }
}

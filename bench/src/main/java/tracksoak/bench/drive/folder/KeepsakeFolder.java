package tracksoak.bench.drive.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.TimedCall;

/**
 * The folder on a drive in which a run left files for a later one, with a note for people. It is found by its name; only
 * files of a run and the note are ever deleted in it, links are never followed, and if anything else lies there all of it
 * stays.
 */
public final class KeepsakeFolder {

    /** The note. */
    public static final String NOTE = "README-TRACKSOAK.txt";

    private static final String PREFIX = "TRACKSOAK-KEEPSAKE-";
    private static final Pattern FOLDER = Pattern.compile(PREFIX + "[0-9a-f]{8}");
    private static final int MOST_FOLDERS = 100;

    private final Path folder;

    private KeepsakeFolder(Path folder) {
        this.folder = folder;
    }

    /** Name of the folder of a run. */
    public static String nameOf(String runId) {
        return PREFIX + runId.substring(runId.length() - 8);
    }

    /**
     * Moves files of a run into a new folder beside the run's own; no data is copied.
     *
     * @param runFolder the run's own folder
     * @param names of the files
     * @param note the text for the note, at most 1 MiB
     * @throws IOException if the drive refuses; files may then lie in either folder
     */
    public static KeepsakeFolder leave(Path runFolder, String runId, List<String> names, String note)
            throws IOException {
        Path folder = runFolder.resolveSibling(nameOf(runId));
        return TimedCall.within(RealDrive.PATIENCE, "leave a keepsake in " + folder, () -> {
            Files.createDirectory(folder);
            ByteBuffer text = ByteBuffer.wrap(note.getBytes(StandardCharsets.UTF_8));
            try (FileChannel channel = FileChannel.open(
                    folder.resolve(NOTE),
                    StandardOpenOption.CREATE_NEW,
                    StandardOpenOption.WRITE,
                    StandardOpenOption.DSYNC)) {
                while (text.hasRemaining()) {
                    channel.write(text);
                }
            }
            for (String name : names) {
                Files.move(runFolder.resolve(name), folder.resolve(name), StandardCopyOption.ATOMIC_MOVE);
            }
            RealDrive.sync(folder);
            RealDrive.sync(runFolder);
            return new KeepsakeFolder(folder);
        });
    }

    /** The keepsakes in {@code parent}, by name. */
    public static List<KeepsakeFolder> under(Path parent) throws IOException {
        return TimedCall.within(RealDrive.PATIENCE, "look for keepsakes in " + parent, () -> {
            List<KeepsakeFolder> found = new ArrayList<>();
            try (DirectoryStream<Path> entries = Files.newDirectoryStream(parent, PREFIX + "*")) {
                for (Path entry : entries) {
                    if (FOLDER.matcher(String.valueOf(entry.getFileName())).matches()
                            && Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS)
                            && found.size() < MOST_FOLDERS) {
                        found.add(new KeepsakeFolder(entry));
                    }
                }
            } catch (DirectoryIteratorException e) {
                throw e.getCause();
            }
            found.sort((a, b) -> a.folder.compareTo(b.folder));
            return found;
        });
    }

    /** Where it lies. */
    public Path folder() {
        return folder;
    }

    /** Name of the folder. */
    public String name() {
        return String.valueOf(folder.getFileName());
    }

    /** The note, null if there is none or it is longer than {@code longest} bytes. */
    public @Nullable String note(int longest) throws IOException {
        return TimedCall.within(RealDrive.PATIENCE, "read the note in " + folder, () -> {
            Path note = folder.resolve(NOTE);
            if (!Files.isRegularFile(note, LinkOption.NOFOLLOW_LINKS)) {
                return null;
            }
            try (InputStream in = Files.newInputStream(note, LinkOption.NOFOLLOW_LINKS)) {
                byte[] bytes = in.readNBytes(longest + 1);
                return bytes.length > longest ? null : new String(bytes, StandardCharsets.UTF_8);
            }
        });
    }

    /** Room it takes, in bytes. */
    public long bytes() throws IOException {
        return TimedCall.within(RealDrive.PATIENCE, "look into " + folder, () -> new OwnFolder(folder).bytes());
    }

    /**
     * Deletes it.
     *
     * @param lock the disk's lock, held
     * @throws LeftOver.NotOursException if something else lies in it; nothing is deleted then
     * @throws LeftOver.InUseException if a program still has a file of it open on a file system where it then stays
     */
    public void clear(RunLock lock) throws IOException {
        if (!lock.held()) {
            throw new IllegalStateException("the lock of the disk is no longer held");
        }
        TimedCall.within(RealDrive.PATIENCE, "clear " + folder, () -> {
            new OwnFolder(folder).delete(NOTE);
            return true;
        });
    }
}

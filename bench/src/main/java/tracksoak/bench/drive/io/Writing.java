package tracksoak.bench.drive.io;

import com.sun.nio.file.ExtendedOpenOption;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.NotPortable;
import tracksoak.report.record.facts.IoMode;

/**
 * How writes get past the host's memory in one folder, found out by trying. Whatever the file system's clusters are, what
 * is written at once stays as large as it was asked for.
 *
 * @param direct whether past it; else through it, and waited for
 * @param nativeCalls whether by the kernel's own calls, which ask for the device's sectors where the JDK's ask for the file
 *     system's clusters, and say by number why they refuse
 * @param reason why not direct, empty if it is
 * @param cluster the file system's unit of room in bytes, at least {@link #UNIT}
 */
@NotPortable("direct I/O is asked for through a JDK extension; where it is refused we write through")
record Writing(boolean direct, boolean nativeCalls, String reason, int cluster) {

    /** Unit of positions, lengths and buffer addresses in bytes: the stamped block, and a multiple of any drive's sector. */
    static final int UNIT = 4096;

    private static final int LARGEST_CLUSTER = 32 << 20;
    private static final String TRIAL = "trial-write.soak";

    /**
     * Finds out how to write in {@code folder}, by one trial file that is deleted again.
     *
     * @param nativeCalls whether the kernel's own calls may be used
     * @throws IOException if the folder takes no file at all
     */
    static Writing tried(Path folder, Optional<Mount> mount, boolean nativeCalls) throws IOException {
        long block = blockBytes(folder);
        int cluster = (int) Math.max(UNIT, Math.min(block, LARGEST_CLUSTER));
        if (mount.isPresent() && mount.get().fuse()) {
            return through(
                    "the file system (" + mount.get().type()
                            + ") is served by a program, which may keep direct writes in memory",
                    nativeCalls,
                    cluster);
        }
        if (!nativeCalls && (block <= 0 || block > UNIT || Long.bitCount(block) != 1)) {
            return through(
                    block <= 0
                            ? "the system does not tell the file system's block size"
                            : "direct writes would have to be of " + block + " bytes here, and a recorder's are not",
                    false,
                    cluster);
        }
        Writing direct = new Writing(true, nativeCalls, "", cluster);
        String refusal = direct.refusal(folder);
        return refusal == null ? direct : through(refusal, nativeCalls, cluster);
    }

    /** For a folder that is only read. */
    static Writing none() {
        return through("nothing is written", false, UNIT);
    }

    private static Writing through(String reason, boolean nativeCalls, int cluster) {
        return new Writing(false, nativeCalls, reason, cluster);
    }

    /** Block size of the file system as the system tells it, 0 if it does not. */
    private static long blockBytes(Path folder) throws IOException {
        try {
            return Files.getFileStore(folder).getBlockSize();
        } catch (UnsupportedOperationException e) {
            return 0;
        }
    }

    /** Why a trial write does not go through; null if it does. */
    private @Nullable String refusal(Path folder) throws IOException {
        Path trial = folder.resolve(TRIAL);
        ByteBuffer block = ByteBuffer.allocateDirect(2 * UNIT).alignedSlice(UNIT);
        try (DriveFile file = create(trial)) {
            file.write(block.limit(UNIT), 0);
            return null;
        } catch (NoPlaceException full) {
            throw full;
        } catch (IOException | IllegalArgumentException | UnsupportedOperationException e) {
            return "the file system refuses direct I/O: " + e.getMessage();
        } finally {
            Files.deleteIfExists(trial);
        }
    }

    /** Whether files can be given room in advance, where the file system has that. */
    boolean extendsFiles() {
        return direct && nativeCalls;
    }

    IoMode mode() {
        return direct ? IoMode.DIRECT : IoMode.WRITE_THROUGH;
    }

    /** Makes a new file for writing and reading. An existing name, also a link, is refused. */
    DriveFile create(Path path) throws IOException {
        if (nativeCalls) {
            return direct ? NativeFile.create(path) : NativeFile.createThrough(path);
        }
        return new RealFile(FileChannel.open(
                path,
                Set.of(
                        StandardOpenOption.CREATE_NEW,
                        StandardOpenOption.READ,
                        StandardOpenOption.WRITE,
                        direct ? ExtendedOpenOption.DIRECT : StandardOpenOption.DSYNC)));
    }

    /** Opens an existing file for reading; a link is refused. */
    DriveFile open(Path path) throws IOException {
        if (direct && nativeCalls) {
            return NativeFile.open(path);
        }
        Set<OpenOption> options = direct
                ? Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS, ExtendedOpenOption.DIRECT)
                : Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS);
        return new RealFile(FileChannel.open(path, options));
    }
}

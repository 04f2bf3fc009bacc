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
 * How writes get past the host's memory in one folder, found out by trying.
 *
 * @param mode direct where one trial write went through, else write-through
 * @param reason why not direct, empty if it is
 * @param alignment unit of positions, lengths and buffer addresses in bytes, a power of two, at least 4096
 */
@NotPortable("direct I/O is asked for through a JDK extension; where it is refused we write through")
record Writing(IoMode mode, String reason, int alignment) {

    /** Smallest alignment in bytes: the stamped block. */
    static final int SMALLEST = 4096;

    /** Above this allocation unit direct I/O would ask for larger chunks than any recorder writes, in bytes. */
    static final int LARGEST = 1 << 20;

    private static final String TRIAL = "trial-write.soak";

    /**
     * Finds out how to write in {@code folder}, by one trial file that is deleted again.
     *
     * @throws IOException if the folder takes no file at all
     */
    static Writing tried(Path folder, Optional<Mount> mount) throws IOException {
        if (mount.isPresent() && mount.get().fuse()) {
            return through("the file system (" + mount.get().type()
                    + ") is served by a program, which may keep direct writes in memory");
        }
        long unit;
        try {
            unit = Files.getFileStore(folder).getBlockSize();
        } catch (UnsupportedOperationException e) {
            return through("the system does not tell the file system's block size");
        }
        if (unit <= 0 || Long.bitCount(unit) != 1) {
            return through("the file system's block size, " + unit + " bytes, is no power of two");
        }
        if (unit > LARGEST) {
            return through("the file system's allocation unit of " + unit
                    + " bytes would make every direct write larger than a recorder's");
        }
        int alignment = (int) Math.max(SMALLEST, unit);
        String refusal = refusal(folder, alignment);
        return refusal == null ? new Writing(IoMode.DIRECT, "", alignment) : through(refusal);
    }

    /** For a folder that is only read. */
    static Writing none() {
        return through("nothing is written");
    }

    private static Writing through(String reason) {
        return new Writing(IoMode.WRITE_THROUGH, reason, SMALLEST);
    }

    private static @Nullable String refusal(Path folder, int alignment) throws IOException {
        Path trial = folder.resolve(TRIAL);
        ByteBuffer block = ByteBuffer.allocateDirect(2 * alignment).alignedSlice(alignment);
        block.limit(alignment);
        try (FileChannel channel = FileChannel.open(trial, toCreate(IoMode.DIRECT))) {
            while (block.hasRemaining()) {
                channel.write(block, block.position());
            }
            return null;
        } catch (IOException | IllegalArgumentException | UnsupportedOperationException e) {
            return "the file system refuses direct I/O: " + e.getMessage();
        } finally {
            Files.deleteIfExists(trial);
        }
    }

    /** Options to make a new file for writing and reading. An existing name, also a link, is refused. */
    Set<OpenOption> toCreate() {
        return toCreate(mode);
    }

    /** Options to open an existing file for reading. */
    Set<OpenOption> toRead() {
        return mode == IoMode.DIRECT
                ? Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS, ExtendedOpenOption.DIRECT)
                : Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS);
    }

    private static Set<OpenOption> toCreate(IoMode mode) {
        return Set.of(
                StandardOpenOption.CREATE_NEW,
                StandardOpenOption.READ,
                StandardOpenOption.WRITE,
                mode == IoMode.DIRECT ? ExtendedOpenOption.DIRECT : StandardOpenOption.DSYNC);
    }
}

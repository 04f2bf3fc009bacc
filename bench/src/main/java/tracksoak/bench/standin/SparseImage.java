package tracksoak.bench.standin;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.BitSet;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/**
 * The bytes of a stand-in, in a file with holes: what nobody wrote takes no room. A small file beside it says that it is one of
 * ours; a file that has none is never opened for writing. Confined to one thread, but for reading.
 */
public final class SparseImage implements Store {

    /** Ends the name of the file that says so. */
    public static final String SAYS_SO = ".stand-in";

    /** Smallest and largest drive, in bytes. */
    public static final long LEAST_BYTES = 1L << 20;

    public static final long MOST_BYTES = 16L << 40;

    private static final String MARK = "tracksoak stand-in 1 ";
    private static final int UNIT = 64 << 10;
    private static final ByteBuffer ZEROS = ByteBuffer.allocateDirect(1 << 20).asReadOnlyBuffer();

    private final FileChannel file;
    private final long sizeBytes;
    private final BitSet written = new BitSet();
    private final boolean fresh;

    private SparseImage(FileChannel file, long sizeBytes, boolean fresh) {
        this.file = file;
        this.sizeBytes = sizeBytes;
        this.fresh = fresh;
    }

    /**
     * Makes a new image.
     *
     * @throws Problem if there is a file of that name, or it cannot be made
     */
    public static SparseImage create(Path path, long sizeBytes) {
        if (sizeBytes < LEAST_BYTES || sizeBytes > MOST_BYTES || sizeBytes % 512 != 0) {
            throw Problem.askedWrong(
                    "a stand-in of " + sizeBytes + " bytes cannot be made; allowed: " + Units.bytes(LEAST_BYTES)
                            + " to " + Units.bytes(MOST_BYTES) + ", a multiple of 512 bytes",
                    "choose a size in between");
        }
        if (Files.exists(path)) {
            throw cannot(path, "it is there already, and nothing that is there is written over", "choose another name");
        }
        try {
            AtomicFile.write(mark(path), (MARK + sizeBytes + "\n").getBytes(StandardCharsets.UTF_8));
            FileChannel file = FileChannel.open(
                    path, StandardOpenOption.CREATE_NEW, StandardOpenOption.READ, StandardOpenOption.WRITE);
            lock(path, file);
            file.write(ByteBuffer.allocate(1), sizeBytes - 1);
            return new SparseImage(file, sizeBytes, true);
        } catch (IOException e) {
            throw cannot(
                    path,
                    Problem.reason(e),
                    "choose a folder that can be written to, on a file system that knows holes");
        }
    }

    /**
     * Opens one that was made earlier.
     *
     * @throws Problem if it is none of ours, or another program serves it
     */
    public static SparseImage open(Path path) {
        try {
            String said = Files.isRegularFile(mark(path)) && Files.size(mark(path)) < 100
                    ? Files.readString(mark(path), StandardCharsets.UTF_8)
                    : "";
            if (!said.equals(MARK + Files.size(path) + "\n")) {
                throw cannot(
                        path,
                        "it is there already and is no image that a stand-in made: nothing of yours is written to",
                        "choose another name");
            }
            FileChannel file = FileChannel.open(path, StandardOpenOption.READ, StandardOpenOption.WRITE);
            lock(path, file);
            return new SparseImage(file, file.size(), false);
        } catch (IOException e) {
            throw cannot(path, Problem.reason(e), "check the path and its permissions");
        }
    }

    /** Deletes what {@link #create} made. */
    public static void discard(Path path) {
        try {
            Files.deleteIfExists(path);
            Files.deleteIfExists(mark(path));
        } catch (IOException left) {
            // it is empty, and the next one may use it
        }
    }

    private static void lock(Path path, FileChannel file) throws IOException {
        try {
            if (file.tryLock() != null) {
                return;
            }
        } catch (OverlappingFileLockException here) {
            // served by this very process: told below
        }
        file.close();
        throw new Problem(
                Problem.Kind.BUSY,
                "This image cannot be served",
                Inert.quoted(path),
                "another program is serving it",
                "end that first");
    }

    private static Path mark(Path path) {
        return path.resolveSibling(path.getFileName() + SAYS_SO);
    }

    private static Problem cannot(Path path, String why, String todo) {
        return new Problem(Problem.Kind.ASKED_WRONG, "This image cannot be served", Inert.quoted(path), why, todo);
    }

    @Override
    public long sizeBytes() {
        return sizeBytes;
    }

    @Override
    public void read(ByteBuffer target, long offset) throws IOException {
        inside(offset, target.remaining());
        long at = offset;
        while (target.hasRemaining()) {
            int got = file.read(target, at);
            if (got < 0) {
                throw new EOFException("the image has become shorter");
            }
            at += got;
        }
    }

    @Override
    public void write(ByteBuffer source, long offset) throws IOException {
        inside(offset, source.remaining());
        written.set((int) (offset / UNIT), (int) ((offset + source.remaining() + UNIT - 1) / UNIT));
        long at = offset;
        while (source.hasRemaining()) {
            at += file.write(source, at);
        }
    }

    /** Writes zeros where it does not read as zeros anyway. */
    @Override
    public void zero(long offset, long bytes) throws IOException {
        inside(offset, bytes);
        long at = offset;
        long end = offset + bytes;
        while (at < end) {
            int unit = (int) (at / UNIT);
            long unitEnd = Math.min(end, (unit + 1L) * UNIT);
            if (fresh && !written.get(unit)) {
                int next = written.nextSetBit(unit);
                at = next < 0 ? end : Math.min(end, (long) next * UNIT);
            } else {
                ByteBuffer zeros = ZEROS.duplicate();
                zeros.limit((int) (unitEnd - at));
                write(zeros, at);
                at = unitEnd;
            }
        }
    }

    @Override
    public void flush() throws IOException {
        file.force(false);
    }

    @Override
    public boolean full(IOException failed) {
        String message = failed.getMessage();
        return message != null && message.contains("No space left");
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}

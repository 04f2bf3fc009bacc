package tracksoak.bench.standin.trace;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.jspecify.annotations.Nullable;

/**
 * Writes a trace, a few bytes a request, with flat memory; the form is told in docs/trace-format.md. Confined to one thread.
 * After an error it writes no more and says so once, when it is closed: the recorder is served all the same.
 */
public final class TraceWriter implements AutoCloseable {

    static final byte[] MAGIC = {'T', 'S', 'T', 'R', 'A', 'C', 'E', '\n'};
    static final int VERSION = 1;
    static final int SECTOR = 512;

    static final int THROUGHOUT = 0x08;
    static final int FAILED = 0x10;
    static final int CONTINUES = 0x20;
    static final int SAME_LENGTH = 0x40;
    static final int IN_SECTORS = 0x80;

    /** Longest entry: a head and five numbers of at most ten bytes. */
    private static final int LONGEST = 51;

    private final FileChannel file;
    private final ByteBuffer buffer = ByteBuffer.allocate(64 << 10);
    private long lastUs;
    private long nextOffset;
    private long lastLength;
    private long entries;
    private @Nullable IOException failed;

    /**
     * Begins a trace in a new file.
     *
     * @param startEpochMs when it begins, in ms since 1970
     * @param driveBytes size of the drive
     * @throws IOException if the file cannot be made, above all because it is there already
     */
    public TraceWriter(Path path, long startEpochMs, long driveBytes) throws IOException {
        file = FileChannel.open(path, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        buffer.put(MAGIC).putInt(VERSION).putLong(startEpochMs).putLong(driveBytes);
    }

    /** Adds an entry; their times of arrival do not go back. */
    public void add(Entry entry) {
        if (buffer.remaining() < LONGEST) {
            save();
        }
        boolean continues = entry.offset() == nextOffset;
        boolean sameLength = entry.length() == lastLength;
        boolean sectors = entry.asked() != Asked.NOTE
                && entry.offset() % SECTOR == 0
                && entry.length() % SECTOR == 0
                && nextOffset % SECTOR == 0;
        int unit = sectors ? SECTOR : 1;
        buffer.put((byte) (entry.asked().code()
                | (entry.throughout() ? THROUGHOUT : 0)
                | (entry.failed() ? FAILED : 0)
                | (continues ? CONTINUES : 0)
                | (sameLength ? SAME_LENGTH : 0)
                | (sectors ? IN_SECTORS : 0)));
        number(Math.max(0, entry.arrivedUs() - lastUs));
        if (!continues) {
            long step = (entry.offset() - nextOffset) / unit;
            number((step << 1) ^ (step >> 63));
        }
        if (!sameLength) {
            number(entry.length() / unit);
        }
        number(entry.waitedUs());
        number(entry.servedUs());
        lastUs = Math.max(lastUs, entry.arrivedUs());
        if (entry.asked() != Asked.NOTE) {
            nextOffset = entry.offset() + entry.length();
            lastLength = entry.length();
        }
        entries++;
    }

    private void number(long value) {
        long left = value;
        while ((left & ~0x7FL) != 0) {
            buffer.put((byte) ((left & 0x7F) | 0x80));
            left >>>= 7;
        }
        buffer.put((byte) left);
    }

    /** Hands what was added to the system. */
    public void save() {
        buffer.flip();
        try {
            while (failed == null && buffer.hasRemaining()) {
                file.write(buffer);
            }
        } catch (IOException e) {
            failed = e;
        }
        buffer.clear();
    }

    /**
     * Ends the trace.
     *
     * @throws IOException if it could not be written whole
     */
    @Override
    public void close() throws IOException {
        if (!file.isOpen()) {
            return;
        }
        add(Entry.note(Note.END, lastUs, entries));
        save();
        file.close();
        if (failed != null) {
            throw failed;
        }
    }
}

package tracksoak.bench.stream;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;

/**
 * The files of one pass: one open file per stream, a new one whenever the session's limit is reached. Every file begins
 * with a header that says in words that it is no audio; like a recorder's, it is rewritten when the file is closed.
 *
 * <p>Different streams may be written by different threads, one stream by one thread at a time.
 */
public final class StreamFiles {

    /** Ends every name: no player takes it for audio. */
    public static final String EXTENSION = ".soak";

    private final Drive drive;
    private final String label;
    private final int pass;
    private final long runId;
    private final long fileLimitBytes;
    private final ByteBuffer header;
    private final Open[] open;
    private final AtomicBoolean spaceRefused = new AtomicBoolean();
    private long inAdvanceBytes;
    private final AtomicLong deletedFiles = new AtomicLong();
    private final AtomicLong deletedBytes = new AtomicLong();
    private final List<WrittenFile> written = Collections.synchronizedList(new ArrayList<>());

    /**
     * Opens nothing yet.
     *
     * @param label begins every name, for example {@code take-1}
     * @param pass number of the pass within the run, in every stamp
     * @param streams how many
     * @param fileLimitBytes largest file in bytes
     */
    public StreamFiles(Drive drive, String label, int pass, long runId, int streams, long fileLimitBytes) {
        this.drive = drive;
        this.label = label;
        this.pass = pass;
        this.runId = runId;
        this.fileLimitBytes = fileLimitBytes;
        this.header = AlignedBuffer.allocate(drive.alignmentBytes(), drive.alignmentBytes());
        this.open = new Open[streams];
        for (int stream = 0; stream < streams; stream++) {
            open[stream] = new Open(stream);
        }
    }

    /** Files are given so much room ahead of what is written, in bytes. Before the first. */
    public StreamFiles inAdvance(long bytes) {
        inAdvanceBytes = bytes;
        return this;
    }

    /** Whether the file system gave room in advance whenever it was asked. */
    public boolean spaceGiven() {
        return !spaceRefused.get();
    }

    /** Whether the stream's file is to be given room before {@code bytes} more are written. */
    public boolean wantsSpace(int stream, int bytes) {
        Open file = open[stream];
        return inAdvanceBytes > 0 && !spaceRefused.get() && file.end() + bytes > file.givenBytes;
    }

    /** Gives the stream's file room for {@code bytes} and as much ahead as was said. */
    public void giveSpace(int stream, int bytes) throws IOException {
        open[stream].extend(Math.min(open[stream].end() + bytes + inAdvanceBytes, fileLimitBytes));
    }

    /** Bounds the room of one stream. Before its first file. */
    public void allot(int stream, Allotment allotment) {
        open[stream].allotment = allotment;
    }

    /** The first file of one stream holds so many bytes of data at most. Before it is begun. */
    public void cutFirst(int stream, long dataBytes) {
        open[stream].mostOfFirst = dataBytes;
    }

    /** Makes and opens the next file of one stream, or its first. */
    public void begin(int stream) throws IOException {
        open[stream].begin();
    }

    /** Whether the stream must go on in another file before {@code bytes} more fit. */
    public boolean mustSplit(int stream, int bytes) {
        Open file = open[stream];
        long limit = Math.min(fileLimitBytes, file.allotment.fileBytes());
        if (file.part == 1 && file.dataBytes + bytes > file.mostOfFirst) {
            return true;
        }
        return file.dataBytes + bytes > limit - header.capacity();
    }

    /** Finishes the stream's file; {@link #begin} goes on in the next. */
    public void finish(int stream) throws IOException {
        Open file = open[stream];
        file.rewriteHeader();
        file.flush(true);
        file.close();
    }

    /** Finishes the stream's file and goes on in the next. */
    public void split(int stream) throws IOException {
        finish(stream);
        begin(stream);
    }

    /** Whether the stream's oldest file must be deleted before it begins another. */
    public boolean mustMakeRoom(int stream) {
        return open[stream].kept.size() >= open[stream].allotment.files();
    }

    /** Deletes the stream's oldest file; it is no longer among {@link #written}. */
    public void deleteOldest(int stream) throws IOException {
        WrittenFile oldest = open[stream].kept.removeFirst();
        written.remove(oldest);
        drive.delete(oldest.name());
        deletedFiles.incrementAndGet();
        deletedBytes.addAndGet(oldest.headerBytes() + oldest.dataBytes());
    }

    /** Files deleted for want of room. */
    public long deletedFiles() {
        return deletedFiles.get();
    }

    /** Their size in bytes. */
    public long deletedBytes() {
        return deletedBytes.get();
    }

    /** Writes a chunk at the end of the stream. */
    public void append(int stream, ByteBuffer chunk) throws IOException {
        open[stream].append(chunk);
    }

    /** Number of the next block of a stream. */
    public long nextBlock(int stream) {
        return open[stream].nextBlock;
    }

    /** Flushes the data of a stream's file. */
    public void flush(int stream) throws IOException {
        open[stream].flush(false);
    }

    /** Rewrites the header of a stream's file with its final length. */
    public void rewriteHeader(int stream) throws IOException {
        open[stream].rewriteHeader();
    }

    /** Flushes data and metadata of a stream's file. */
    public void flushWhole(int stream) throws IOException {
        open[stream].flush(true);
    }

    /** Closes a stream's file. */
    public void close(int stream) throws IOException {
        open[stream].close();
    }

    /** Closes what is still open after a fault, whatever the drive says to it. */
    public void letGo() {
        for (Open file : open) {
            try {
                if (file.file != null) {
                    file.close();
                }
            } catch (IOException alreadyFailed) {
                // the fault that led here is what counts
            }
        }
    }

    /** Files made so far by one stream. */
    public int files(int stream) {
        return open[stream].part;
    }

    /** Number of streams. */
    public int streams() {
        return open.length;
    }

    /** Every file of the pass still there, with what it should hold, in the order of their making. */
    public List<WrittenFile> written() {
        List<WrittenFile> all = new ArrayList<>(written);
        for (Open file : open) {
            if (file.file != null) {
                all.add(file.asWritten());
            }
        }
        return all;
    }

    /** Number of the pass. */
    public int pass() {
        return pass;
    }

    private final class Open {
        private final int stream;
        private final Deque<WrittenFile> kept = new ArrayDeque<>();
        private Allotment allotment = Allotment.ENDLESS;
        private long mostOfFirst = Long.MAX_VALUE;
        private @Nullable DriveFile file;
        private String name = "";
        private int part;
        private long firstBlock;
        private long nextBlock;
        private long dataBytes;
        private long givenBytes;
        private byte[] closedWords = new byte[0];
        private int lengthAt;

        private Open(int stream) {
            this.stream = stream;
        }

        private void begin() throws IOException {
            part++;
            name = String.format(Locale.ROOT, "%s-track-%04d-part-%03d%s", label, stream + 1, part, EXTENSION);
            firstBlock = nextBlock;
            dataBytes = 0;
            givenBytes = 0;
            String words = PatternHeader.text(runId, label, stream, part, firstBlock, PatternHeader.CLOSED_LENGTH);
            closedWords = words.getBytes(StandardCharsets.US_ASCII);
            lengthAt = words.length() - 1 - PatternHeader.LENGTH_DIGITS;
            file = drive.create(name);
            writeHeader(PatternHeader.text(runId, label, stream, part, firstBlock, PatternHeader.OPEN)
                    .getBytes(StandardCharsets.US_ASCII));
        }

        /** Allocates nothing: a recorder that writes headers as it goes does so in the middle of a take. */
        private void rewriteHeader() throws IOException {
            long left = dataBytes;
            for (int at = lengthAt + PatternHeader.LENGTH_DIGITS - 1; at >= lengthAt; at--) {
                closedWords[at] = (byte) ('0' + left % 10);
                left /= 10;
            }
            writeHeader(closedWords);
        }

        private void writeHeader(byte[] words) throws IOException {
            synchronized (header) {
                header.clear();
                header.put(words);
                while (header.hasRemaining()) {
                    header.put((byte) 0);
                }
                file().write(header.flip(), 0);
            }
        }

        private long end() {
            return header.capacity() + dataBytes;
        }

        private void extend(long toBytes) throws IOException {
            if (file().extend(toBytes)) {
                givenBytes = toBytes;
            } else {
                spaceRefused.set(true);
            }
        }

        private void append(ByteBuffer chunk) throws IOException {
            int bytes = chunk.remaining();
            file().write(chunk, header.capacity() + dataBytes);
            dataBytes += bytes;
            nextBlock += bytes / Stamp.BLOCK;
        }

        private void flush(boolean withMetadata) throws IOException {
            if (withMetadata && givenBytes > end()) {
                file().trim(end());
                givenBytes = 0;
            }
            file().flush(withMetadata);
        }

        private void close() throws IOException {
            DriveFile closing = file();
            WrittenFile closed = asWritten();
            written.add(closed);
            kept.add(closed);
            file = null;
            closing.close();
        }

        private WrittenFile asWritten() {
            return new WrittenFile(name, stream, pass, firstBlock, dataBytes / Stamp.BLOCK, header.capacity());
        }

        private DriveFile file() throws IOException {
            DriveFile now = file;
            if (now == null) {
                throw new IOException("file " + name + " is not open");
            }
            return now;
        }
    }
}

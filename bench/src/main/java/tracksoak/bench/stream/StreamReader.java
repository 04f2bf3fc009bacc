package tracksoak.bench.stream;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;

/**
 * Reads the streams of one pass from their files, from the first that is still there: one open file per stream, the next
 * one whenever a file ends. Different streams may be read by different threads, one stream by one thread at a time.
 */
public final class StreamReader {

    private final Drive drive;
    private final Open[] open;

    /**
     * Opens nothing yet.
     *
     * @param files of one pass, whole
     * @param streams how many
     */
    public StreamReader(Drive drive, List<WrittenFile> files, int streams) {
        this.drive = drive;
        this.open = new Open[streams];
        for (int stream = 0; stream < streams; stream++) {
            int mine = stream;
            open[stream] = new Open(files.stream()
                    .filter(file -> file.stream() == mine)
                    .sorted(Comparator.comparingLong(WrittenFile::firstBlock))
                    .toList());
        }
    }

    /** What there is of a stream, in bytes. */
    public long bytes(int stream) {
        return open[stream].files.stream().mapToLong(WrittenFile::dataBytes).sum();
    }

    /** Opens the file that holds byte {@code at} of a stream. */
    public void begin(int stream, long at) throws IOException {
        open[stream].moveTo(at);
    }

    /** Whether byte {@code at} of a stream lies in another file than the one that is open. */
    public boolean mustMove(int stream, long at) {
        return !open[stream].holds(at);
    }

    /**
     * Reads from the file that is open.
     *
     * @param at first byte of the stream, counted from the first that is there
     * @param target filled from its position to its limit, unless the file ends before
     * @return bytes read
     */
    public int read(int stream, long at, ByteBuffer target) throws IOException {
        return open[stream].read(at, target);
    }

    /** Files of a stream that are there. */
    public int files(int stream) {
        return open[stream].files.size();
    }

    /** Closes what is open after a fault, whatever the drive says to it. */
    public void letGo() {
        for (Open each : open) {
            try {
                each.close();
            } catch (IOException alreadyFailed) {
                // the fault that led here is what counts
            }
        }
    }

    private final class Open {
        private final List<WrittenFile> files;
        private final List<Long> begins = new ArrayList<>();
        private int index = -1;
        private @Nullable DriveFile file;

        private Open(List<WrittenFile> files) {
            this.files = files;
            long at = 0;
            for (WrittenFile each : files) {
                begins.add(at);
                at += each.dataBytes();
            }
            begins.add(at);
        }

        private boolean holds(long at) {
            return index >= 0 && file != null && at >= begins.get(index) && at < begins.get(index + 1);
        }

        private void moveTo(long at) throws IOException {
            close();
            int to = Math.max(0, index);
            if (at < begins.get(to)) {
                to = 0;
            }
            while (to + 1 < files.size() && at >= begins.get(to + 1)) {
                to++;
            }
            index = to;
            file = drive.open(files.get(to).name());
        }

        private int read(long at, ByteBuffer target) throws IOException {
            DriveFile now = file;
            if (now == null) {
                throw new IOException("no file of the stream is open");
            }
            return now.read(target, files.get(index).headerBytes() + at - begins.get(index));
        }

        private void close() throws IOException {
            DriveFile closing = file;
            file = null;
            if (closing != null) {
                closing.close();
            }
        }
    }
}

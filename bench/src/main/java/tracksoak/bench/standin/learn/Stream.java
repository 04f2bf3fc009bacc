package tracksoak.bench.standin.learn;

import java.util.Arrays;
import java.util.List;
import tracksoak.bench.standin.learn.Evidence.Stop;
import tracksoak.bench.volume.VolumeFile;

/**
 * What the trace tells of one file: audio that was added at its end, chunk by chunk, and pieces that were written again. Times in µs
 * since the trace began. Confined to one thread.
 */
final class Stream {

    /** A piece that comes later than this part of the time a large one takes to fill begins a new chunk. */
    private static final double NEW_CHUNK = 0.5;

    private static final int OVER_CHUNKS = 8;
    private static final int LEAST_SLOPES = 8;
    /** Small chunks that are a little late each are looked at over so long a time. */
    private static final double OVER_US = 4_000_000;

    private final VolumeFile file;
    private final Column pieceArrived = new Column();
    private final Column pieceDone = new Column();
    private final Column pieceAt = new Column();
    private final Column pieceBytes = new Column();
    private final Column rewrites = new Column();
    private long reached;
    private long writtenTo;
    /** What the last piece that was not next left out; a system may send the parts of one chunk in any order. */
    private long holeFrom;

    private long holeTo;
    private boolean inOrder = true;

    private final Column arrived = new Column();
    private final Column done = new Column();
    private final Column at = new Column();
    private final Column bytes = new Column();
    private List<Stop> stops = List.of();
    private long chunkBytes;
    private double periodUs;

    Stream(VolumeFile file) {
        this.file = file;
    }

    VolumeFile file() {
        return file;
    }

    /** Takes a request to write, whether it was met or not, with audio or zeros. */
    void touch(long end) {
        writtenTo = Math.max(writtenTo, end);
    }

    /** Behind this byte the trace wrote nothing. */
    long writtenTo() {
        return writtenTo;
    }

    /** Takes a write; true if it added audio. */
    boolean write(long position, long length, long arrivedUs, long doneUs) {
        long end = Math.min(position + length, Math.max(file.sizeBytes(), 1));
        if (position >= holeFrom && end <= holeTo) {
            add(position, end, arrivedUs, doneUs);
            if (position == holeFrom) {
                holeFrom = end;
            } else {
                holeTo = position;
            }
            inOrder = false;
            return true;
        }
        if (end <= reached) {
            if (position < 4096 && (rewrites.isEmpty() || arrivedUs > rewrites.last())) {
                rewrites.add(arrivedUs);
            }
            return false;
        }
        if (position > reached && reached > 0) {
            holeFrom = reached;
            holeTo = position;
        }
        add(Math.max(position, reached), end, arrivedUs, doneUs);
        reached = end;
        return true;
    }

    private void add(long position, long end, long arrivedUs, long doneUs) {
        pieceArrived.add(arrivedUs);
        pieceDone.add(doneUs);
        pieceAt.add(position);
        pieceBytes.add(end - position);
    }

    int pieces() {
        return pieceArrived.size();
    }

    /** Puts the pieces together to chunks, once all are there, and with them the stops of the drive. */
    void gather(List<Stop> all) {
        stops = all;
        if (!inOrder) {
            int[] order = pieceAt.order();
            pieceArrived.arrange(order);
            pieceDone.arrange(order);
            pieceAt.arrange(order);
            pieceBytes.arrange(order);
        }
        double usPerByte = pieces() < 2
                ? 0
                : (double) (pieceArrived.last() - pieceArrived.get(0)) / Math.max(1, pieceAt.last() - pieceAt.get(0));
        long large = pieceBytes.above(0.75);
        for (int i = 0; i < pieces(); i++) {
            boolean follows = !bytes.isEmpty()
                    && pieceAt.get(i) == at.last() + bytes.last()
                    && pieceArrived.get(i) - pieceArrived.get(i - 1)
                            < NEW_CHUNK * usPerByte * Math.min(bytes.last(), large);
            if (follows) {
                bytes.setLast(bytes.last() + pieceBytes.get(i));
                done.setLast(Math.max(done.last(), pieceDone.get(i)));
            } else {
                arrived.add(pieceArrived.get(i));
                done.add(pieceDone.get(i));
                at.add(pieceAt.get(i));
                bytes.add(pieceBytes.get(i));
            }
        }
        chunkBytes = bytes.mode();
        periodUs = steadyPeriodUs();
    }

    /**
     * The slope in the middle of all slopes over some chunks (after Theil and Sen): single late chunks do not move it, and it is finer than
     * any one gap. Over a stop audio may be missing, so that of a trace with many stops the parts between them tell, however short.
     */
    private double steadyPeriodUs() {
        double rough = periodUs(OVER_CHUNKS);
        int longer = rough > 0 ? (int) (OVER_US / rough) : 0;
        return longer > OVER_CHUNKS ? periodUs(longer) : rough;
    }

    private double periodUs(int atMost) {
        int over = Math.max(1, Math.min(atMost, chunks() / 4));
        for (int shorter = over; shorter > 0 && !stops.isEmpty(); shorter /= 2) {
            double between = periodUs(shorter, true);
            if (between > 0) {
                return between;
            }
        }
        return periodUs(over, false);
    }

    /** 0 if there are too few slopes. */
    private double periodUs(int over, boolean betweenStops) {
        double[] slopes = new double[Math.max(0, chunks() - over - 1)];
        int count = 0;
        int stop = 0;
        for (int i = 1; i + over < chunks(); i++) {
            long grown = at.get(i + over) - at.get(i);
            while (stop < stops.size() && arrived.get(i) > stops.get(stop).recoveredUs()) {
                stop++;
            }
            boolean clear = stop == stops.size()
                    || arrived.get(i + over) < stops.get(stop).atUs();
            if (grown > 0 && (clear || !betweenStops)) {
                slopes[count++] = (double) (arrived.get(i + over) - arrived.get(i)) * chunkBytes / grown;
            }
        }
        Arrays.sort(slopes, 0, count);
        return count == 0 || (betweenStops && count < LEAST_SLOPES) ? 0 : slopes[count / 2];
    }

    int chunks() {
        return arrived.size();
    }

    long arrivedUs(int chunk) {
        return arrived.get(chunk);
    }

    long doneUs(int chunk) {
        return done.get(chunk);
    }

    /** Where a chunk begins in the file; of the one after the last, where it would. */
    long atByte(int chunk) {
        return chunk < chunks() ? at.get(chunk) : at.last() + bytes.last();
    }

    /** The piece written at once, in bytes. */
    long chunkBytes() {
        return chunkBytes;
    }

    /** Which part of all chunks are of that length. */
    double regular() {
        return chunks() == 0 ? 0 : (double) bytes.count(chunkBytes) / chunks();
    }

    /** From one chunk to the next, in µs; 0 where there are too few. */
    double periodUs() {
        return periodUs;
    }

    /** Bytes per second; 0 where that cannot be told. */
    double bytesPerSecond() {
        return periodUs <= 0 ? 0 : chunkBytes * 1e6 / periodUs;
    }

    /** When its beginning was written again. */
    Column rewrites() {
        return rewrites;
    }
}

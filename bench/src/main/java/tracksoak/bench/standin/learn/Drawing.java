package tracksoak.bench.standin.learn;

import java.util.List;

/**
 * A stretch of the recording, to be drawn: time across, files up.
 *
 * @param fromS its beginning, in s since the trace began
 * @param lengthS its length in s
 * @param files their names, the lowest first; from outside, so not yet harmless to look at
 * @param marks what was written
 */
public record Drawing(double fromS, double lengthS, List<String> files, List<Mark> marks) {

    /** Most marks. */
    public static final int MOST = 5000;

    public Drawing {
        files = List.copyOf(files);
        marks = List.copyOf(marks);
    }

    /**
     * One write.
     *
     * @param file its place in {@link #files}; −1 for tables and folders
     * @param kind {@code audio}, {@code header}, {@code table}, {@code flush} or {@code stop}
     * @param atS when it arrived, in s since {@link #fromS}
     * @param lengthS how long until it was done
     */
    public record Mark(int file, String kind, double atS, double lengthS) {}
}

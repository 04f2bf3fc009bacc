package tracksoak.bench.recording;

import java.io.IOException;

/**
 * A file of a recording.
 *
 * @param path from the place that is looked at, with slashes; from outside, so not yet harmless to look at
 * @param source opens it
 */
public record RecordedFile(String path, WaveHeader header, Source source) {

    /** Opens the bytes of a file. */
    @FunctionalInterface
    public interface Source {
        FileBytes open() throws IOException;
    }

    /** The folder it lies in, empty at the top. */
    public String folder() {
        return folder(path);
    }

    static String folder(String path) {
        int slash = path.lastIndexOf('/');
        return slash < 0 ? "" : path.substring(0, slash);
    }

    /** Its name without its ending. */
    String stem() {
        return stem(path);
    }

    static String stem(String path) {
        String name = path.substring(path.lastIndexOf('/') + 1);
        int dot = name.lastIndexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }

    /** Whole samples of each track in it. */
    public long samples() {
        return header.samples();
    }
}

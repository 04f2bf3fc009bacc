package tracksoak.bench.recording;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The files of one track, or of tracks that share files.
 *
 * @param name a name for it; from outside, so not yet harmless to look at
 * @param files in the order of their names, at least one
 * @param numbers what the name of each file counts, null where it counts nothing
 */
public record TrackFiles(
        String name, List<RecordedFile> files, @Nullable List<Integer> numbers) {

    public TrackFiles {
        files = List.copyOf(files);
        numbers = numbers == null ? null : List.copyOf(numbers);
    }

    /** How its samples are stored, by its first file. */
    public WaveFormat format() {
        return files.get(0).header().format();
    }

    /** Whole samples of each track in all files. */
    public long samples() {
        return files.stream().mapToLong(RecordedFile::samples).sum();
    }

    /** Length in s. */
    public double seconds() {
        return (double) samples() / format().sampleRateHz();
    }
}

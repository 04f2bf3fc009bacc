package tracksoak.bench.recording;

import java.util.List;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;

/**
 * The files of one track, or of tracks that share files.
 *
 * @param name a name for it; from outside, so not yet harmless to look at
 * @param files in the order of their names, at least one
 * @param numbers what the name of each file counts, null where it counts nothing
 * @param place which number of their names that is, from 0
 */
public record TrackFiles(
        String name, List<RecordedFile> files, @Nullable List<Integer> numbers, int place) {

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

    /** Which number a file that could not be looked into would have among these, by its path; empty where it is none of them. */
    public OptionalInt numberOf(String path) {
        RecordedFile first = files.get(0);
        if (numbers == null || !RecordedFile.folder(path).equals(first.folder())) {
            return OptionalInt.empty();
        }
        String stem = RecordedFile.stem(path);
        FileName name = FileName.of(stem);
        // the first may have no number, all others are named alike
        for (RecordedFile file : List.of(first, files.get(files.size() - 1))) {
            FileName own = FileName.of(file.stem());
            if (own.isBeside(name, place)) {
                return OptionalInt.of(name.numbers().get(place));
            }
            if (FileName.series(stem).equalsIgnoreCase(file.stem())) {
                return OptionalInt.of(name.numbers().get(name.numbers().size() - 1));
            }
        }
        boolean before = FileName.series(first.stem()).equalsIgnoreCase(stem);
        return before ? OptionalInt.of(numbers.get(0) - 1) : OptionalInt.empty();
    }
}

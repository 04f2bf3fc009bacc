package tracksoak.bench.standin.learn;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.profiles.Arrival;

/**
 * How a recorder writes.
 *
 * @param streams files written at the same time
 * @param format how each holds samples, by its header; empty where that cannot be told
 * @param bytesPerSecond of all files together, by the trace
 * @param chunkBytes written at once per file
 * @param arrival whether the chunks of all files fall due together
 * @param sameOrder whether the files are written in the same order each time
 * @param writers writes under way at the same time; no fewer than that
 * @param flushS time between two flushes, 0 for none before the end
 * @param headerS time between two writes of a header, 0 for none before the end
 * @param folderS time between two writes of folders; empty where there are too few
 * @param advanceBytes space given to a file at once beyond what it needs, 0 for none
 * @param fileLimitBytes size at which a file was full and the next one begun; empty where that was not seen
 * @param headersAtStop headers written again after the last audio
 * @param fileSystem of the drive
 * @param clusterBytes of the drive
 * @param all every habit in words, with its evidence
 * @param filesKnown whether the file system does not contradict itself; else there may be more files than are told
 * @param doubts what makes all of it doubtful, one sentence each: above all where trace or file system are not whole
 * @param drawing the pattern, to be drawn
 * @param traceSha256 of the trace, in hexadecimal digits
 * @param startEpochMs when the trace began, in ms since 1970
 */
public record Pattern(
        int streams,
        Optional<WaveFormat> format,
        double bytesPerSecond,
        OptionalLong chunkBytes,
        Optional<Arrival> arrival,
        Optional<Boolean> sameOrder,
        int writers,
        OptionalDouble flushS,
        OptionalDouble headerS,
        OptionalDouble folderS,
        OptionalLong advanceBytes,
        OptionalLong fileLimitBytes,
        long headersAtStop,
        String fileSystem,
        int clusterBytes,
        List<Learned> all,
        boolean filesKnown,
        List<String> doubts,
        Drawing drawing,
        String traceSha256,
        long startEpochMs) {

    public Pattern {
        all = List.copyOf(all);
        doubts = List.copyOf(doubts);
    }

    /** A habit in words. */
    Learned learned(Habit habit) {
        return all.stream()
                .filter(one -> one.habit() == habit)
                .findFirst()
                .orElse(new Learned(habit, Learned.UNKNOWN, ""));
    }

    /** Tracks recorded; empty where the headers do not tell how many a file holds. */
    public OptionalInt tracks() {
        return format.map(one -> OptionalInt.of(streams * one.channels())).orElse(OptionalInt.empty());
    }
}

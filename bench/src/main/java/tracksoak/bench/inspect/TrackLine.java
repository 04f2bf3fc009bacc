package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.TakeFinder;
import tracksoak.bench.recording.TrackFiles;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * The files of a track, or of tracks that share files, in the order in which they were recorded.
 *
 * @param track as its files' names have it
 * @param inTime its files by their time references, where all have one; else by their names
 * @param startS when it begins in the take, in s
 */
record TrackLine(TrackFiles track, List<RecordedFile> inTime, double startS) {

    static TrackLine of(TrackFiles track, @Nullable Double takeStartS) {
        List<RecordedFile> inTime = new ArrayList<>(track.files());
        if (timed(track)) {
            inTime.sort(Comparator.comparingLong(TrackLine::reference));
        }
        Double own = startS(track);
        return new TrackLine(track, List.copyOf(inTime), own == null || takeStartS == null ? 0 : own - takeStartS);
    }

    /** Whether all files say when they begin. */
    static boolean timed(TrackFiles track) {
        return track.files().stream().allMatch(file -> file.header().timeReference() != null);
    }

    /** Whether its files are parts of one take, and not takes one after the other: all but the last are as long, or as large as splits. */
    boolean surelySplit() {
        List<RecordedFile> full = inTime.subList(0, inTime.size() - 1);
        return full.stream().mapToLong(RecordedFile::samples).distinct().count() == 1
                && (full.size() > 1 || TakeFinder.largeAsSplits(full.get(0)));
    }

    /** The same where times may say so as well. */
    boolean surelySplits() {
        return surelySplit() || (inTime.size() > 1 && timed(track));
    }

    /** When the first sample was recorded, in s since midnight; null where no file says so. */
    static @Nullable Double startS(TrackFiles track) {
        return timed(track)
                ? track.files().stream()
                        .mapToDouble(file -> (double) reference(file)
                                / file.header().format().sampleRateHz())
                        .min()
                        .orElse(0)
                : null;
    }

    static long reference(RecordedFile file) {
        Long reference = file.header().timeReference();
        if (reference == null) {
            throw new IllegalStateException("asked for a time that is not there");
        }
        return reference;
    }

    String name() {
        return track.name();
    }

    WaveFormat format() {
        return track.format();
    }

    /** Name of one of the tracks in its files. */
    String name(int channel) {
        return format().channels() == 1 ? name() : name() + " #" + (channel + 1);
    }

    /** Whether that is its name, or of one of the tracks in its files. */
    boolean isOf(String one) {
        return IntStream.range(0, format().channels()).mapToObj(this::name).anyMatch(one::equals) || one.equals(name());
    }
    /** Something found in it, or in one of its tracks, that is so many samples long to the sample. */
    Found found(FindingKind kind, Weight weight, String where, long at, double samples, String detail) {
        return Found.at(kind, weight, where, place(at), samples, true).with(detail);
    }

    /** The place of a sample of it. */
    Found.Place place(long sample) {
        return new Found.Place(sample, format().sampleRateHz(), startS);
    }
}

package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.bench.volume.SharedPiece;
import tracksoak.bench.volume.Volume;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Samples that lie where another file has its bytes as well, by the tables of the file system: one of both is not what was recorded. Pure. */
final class SharedPlaces {

    private SharedPlaces() {}

    /** What is found in the files of one line. */
    static List<Found> of(TrackLine line, Recordings recordings) {
        Volume volume = recordings.volume();
        if (volume == null || volume.shared().isEmpty()) {
            return List.of();
        }
        List<Found> found = new ArrayList<>();
        long base = 0;
        for (RecordedFile file : line.inTime()) {
            for (Stretch stretch : stretches(volume, recordings.prefix() + file.path())) {
                add(found, line, base, file.header(), stretch);
            }
            base += file.samples();
        }
        return found;
    }

    /** Bytes of a file that lie, in whatever order, where the same others lie. */
    private record Stretch(long from, long until, String others) {}

    private static List<Stretch> stretches(Volume volume, String path) {
        List<Stretch> stretches = new ArrayList<>();
        for (SharedPiece piece : volume.shared()) {
            if (!piece.path().equals(path)) {
                continue;
            }
            Stretch next = new Stretch(
                    piece.fromByte(), piece.fromByte() + piece.place().lengthBytes(), others(volume, piece));
            Stretch last = stretches.isEmpty() ? null : stretches.get(stretches.size() - 1);
            if (last != null && last.until() == next.from() && last.others().equals(next.others())) {
                stretches.set(stretches.size() - 1, new Stretch(last.from(), next.until(), last.others()));
            } else {
                stretches.add(next);
            }
        }
        return stretches;
    }

    /** Names of what else lies there. */
    private static String others(Volume volume, SharedPiece piece) {
        return FindingText.names(
                volume.shared().stream()
                        .filter(other -> !other.path().equals(piece.path()) && other.meets(piece))
                        .map(SharedPiece::path)
                        .distinct()
                        .toList(),
                0);
    }

    private static void add(List<Found> found, TrackLine line, long base, WaveHeader header, Stretch stretch) {
        int frame = header.format().frameBytes();
        long from = Math.max(0, (stretch.from() - header.dataAt()) / frame);
        long until = Math.min(header.samples(), (stretch.until() - header.dataAt() + frame - 1) / frame);
        if (until > from) {
            double samples = (double) (until - from);
            found.add(line.found(
                    FindingKind.SHARED_PLACE, Weight.FAULT, line.name(), base + from, samples, stretch.others()));
        }
    }
}

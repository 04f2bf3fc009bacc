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
            for (SharedPiece piece : volume.shared()) {
                if (piece.path().equals(recordings.prefix() + file.path())) {
                    add(found, line, base, file.header(), piece, others(volume, piece));
                }
            }
            base += file.samples();
        }
        return found;
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

    private static void add(
            List<Found> found, TrackLine line, long base, WaveHeader header, SharedPiece piece, String others) {
        int frame = header.format().frameBytes();
        long from = Math.max(0, (piece.fromByte() - header.dataAt()) / frame);
        long end = piece.fromByte() + piece.place().lengthBytes() - header.dataAt();
        long until = Math.min(header.samples(), (end + frame - 1) / frame);
        if (until > from) {
            found.add(Found.at(
                            FindingKind.SHARED_PLACE,
                            Weight.FAULT,
                            line.name(),
                            line.place(base + from),
                            until - from,
                            true)
                    .with(others));
        }
    }
}

package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import tracksoak.bench.recording.TrackFiles;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Where splits of a track lie that could not be looked into: what seems to be missing just there may be in them, and is no finding. Pure.
 */
final class NotReadSplits {

    private static final double NEAR_S = 0.01;

    /** What a file that is not there makes of those that are. */
    private static final Set<FindingKind> BY_ABSENCE = EnumSet.of(
            FindingKind.MISSING_SPLIT,
            FindingKind.GAP,
            FindingKind.SEAM,
            FindingKind.UNEQUAL_START,
            FindingKind.SIGNAL_MISSING,
            FindingKind.SIGNAL_PAUSED,
            FindingKind.SIGNAL_APART,
            FindingKind.SIGNAL_ENDS);

    private record Place(TrackLine line, long sample) {}

    private final List<Place> places = new ArrayList<>();

    /** Those of a take. */
    NotReadSplits(List<TrackLine> lines, List<Recordings.Broken> broken) {
        for (Recordings.Broken one : broken) {
            if (one.kind() == FindingKind.NOT_LOOKED_AT && one.weight() == Weight.LISTEN) {
                lines.forEach(line -> add(line, one.path()));
            }
        }
    }

    private void add(TrackLine line, String path) {
        TrackFiles track = line.track();
        List<Integer> numbers = track.numbers();
        OptionalInt number = track.numberOf(path);
        if (numbers == null || number.isEmpty()) {
            return;
        }
        long sample = 0;
        for (int i = 0; i < numbers.size() && numbers.get(i) < number.getAsInt(); i++) {
            sample += track.files().get(i).samples();
        }
        places.add(new Place(line, sample));
    }

    /** Whether what was found may lie in a file that could not be looked into. */
    boolean mayHold(Found found) {
        Long at = found.atSample();
        return BY_ABSENCE.contains(found.kind())
                && places.stream()
                        .anyMatch(place -> at == null
                                ? place.sample() == 0
                                : place.line().isOf(found.where())
                                        && Math.abs(at - place.sample())
                                                <= NEAR_S
                                                        * place.line().format().sampleRateHz());
    }
}

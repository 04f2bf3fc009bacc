package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Tells of zeros at the beginning or the end of a file what they may mean, by what the other tracks of the take have there. Pure.
 */
final class SilentEnds {

    /** Tracks that end or begin so near to each other do so together. */
    private static final double TOGETHER_S = 0.01;

    /**
     * Tracks that share their files, looked through.
     *
     * @param zeros places from the track's first sample on
     */
    record Looked(TrackLine line, List<ScannedTrack> tracks, List<BorderZeros> zeros) {}

    private final List<Looked> take;

    private SilentEnds(List<Looked> take) {
        this.take = take;
    }

    /** What is found in all tracks of a take. */
    static List<Found> of(List<Looked> take) {
        SilentEnds ends = new SilentEnds(take);
        List<Found> found = new ArrayList<>();
        for (Looked looked : take) {
            for (BorderZeros zeros : looked.zeros()) {
                if (zeros.cut() && !ofAllTogether(zeros, looked)) {
                    found.addAll(ends.told(looked, zeros));
                }
            }
        }
        return found;
    }

    /** Whether the zeros of one track are told with those of all that share its file. */
    private static boolean ofAllTogether(BorderZeros zeros, Looked looked) {
        return zeros.channel() >= 0
                && looked.zeros().stream()
                        .anyMatch(all -> all.channel() < 0
                                && all.cut()
                                && all.from() == zeros.from()
                                && all.until() == zeros.until());
    }

    private List<Found> told(Looked looked, BorderZeros zeros) {
        TrackLine line = looked.line();
        long beside = (long) (TOGETHER_S * line.format().sampleRateHz());
        boolean muted = zeros.kind() == FindingKind.ZEROS && !othersSound(looked, zeros);
        Weight weight = zeros.torn() && !muted ? Weight.LISTEN : Weight.NOTE;
        List<Found> found = new ArrayList<>();
        for (int channel = 0; channel < looked.tracks().size(); channel++) {
            // where the signal is, it tells more
            if (zeros.isOf(channel) && !looked.tracks().get(channel).isSignal(zeros.from(), zeros.until(), beside)) {
                String where = zeros.toTheEnd() ? FindingText.TO_THE_END : FindingText.FROM_THE_BEGINNING;
                double samples = (double) (zeros.until() - zeros.from());
                found.add(line.found(zeros.kind(), weight, line.name(channel), zeros.from(), samples, where));
            }
        }
        return found;
    }

    private boolean othersSound(Looked looked, BorderZeros zeros) {
        double from = looked.line().place(zeros.from()).seconds();
        double until = looked.line().place(zeros.until()).seconds();
        for (Looked other : take) {
            for (int channel = 0; channel < other.tracks().size(); channel++) {
                boolean itself = other.equals(looked) && zeros.isOf(channel);
                if (!itself && sounds(other, channel, from, until)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether a track has more than zeros at the ends of its files between two times. */
    private static boolean sounds(Looked looked, int channel, double fromS, double untilS) {
        TrackLine line = looked.line();
        double from = Math.max(fromS, line.place(0).seconds());
        double until = Math.min(untilS, line.place(line.track().samples()).seconds());
        List<BorderZeros> zeros = looked.zeros().stream()
                .filter(one -> one.isOf(channel))
                .sorted(Comparator.comparingLong(BorderZeros::from))
                .toList();
        for (BorderZeros one : zeros) {
            if (line.place(one.from()).seconds() <= from + TOGETHER_S) {
                from = Math.max(from, line.place(one.until()).seconds());
            }
        }
        return until - from > TOGETHER_S;
    }
}

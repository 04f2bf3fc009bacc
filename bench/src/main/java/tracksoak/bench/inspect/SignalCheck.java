package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tracksoak.bench.timecode.SignalBreak;
import tracksoak.bench.timecode.SignalTrace;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Tells of one track what its breaks in the test signal mean: missing, repeated, moved or spoilt. Pure. */
final class SignalCheck {

    /** A signal that goes on from this early was started again. */
    private static final double BEGINNING_S = 2;

    /** So many samples beside a step may fit both sides by chance. */
    private static final double BY_CHANCE = 2;

    /** What is not exact is told to the millisecond. */
    private static final double NEAR_S = 0.5e-3;

    /**
     * A stretch of the signal that lies in the track.
     *
     * @param begin in the signal, in samples of the track
     */
    private record Piece(double begin, double end) {}

    private final ScannedTrack track;
    private final SignalTrace trace;
    private final TrackLine line;
    private final double near;
    private final double chance;
    private final List<Found> found = new ArrayList<>();
    private final List<Piece> moved = new ArrayList<>();

    private SignalCheck(ScannedTrack track, SignalTrace trace, TrackLine line) {
        this.track = track;
        this.trace = trace;
        this.line = line;
        chance = trace.exact() ? BY_CHANCE : 2 * NEAR_S * line.format().sampleRateHz();
        near = trace.exact() ? 0.5 : NEAR_S * line.format().sampleRateHz();
    }

    /** What is found; empty where the track carries no signal. */
    static List<Found> of(ScannedTrack track, TrackLine line) {
        SignalTrace trace = track.trace();
        if (trace == null || !trace.found()) {
            return List.of();
        }
        SignalCheck check = new SignalCheck(track, trace, line);
        check.breaks();
        return check.found;
    }

    private void breaks() {
        List<Piece> pieces = pieces();
        int pass = 0;
        for (int i = 0; i < trace.breaks().size(); i++) {
            SignalBreak one = trace.breaks().get(i);
            if (restarts(one, pieces.get(i)) && !resumes(i, pieces)) {
                add(FindingKind.SIGNAL_RESTARTED, Weight.NOTE, one, 0);
                pass = i + 1;
            } else {
                tell(one, pieces, pass, i);
            }
        }
    }

    private List<Piece> pieces() {
        List<Piece> pieces = new ArrayList<>();
        // the two clocks differ, and in half a minute that is more than a millisecond
        double pace = 1 + trace.ppm() * 1e-6;
        double signal = trace.signalAtFrom();
        long at = trace.from();
        for (SignalBreak one : trace.breaks()) {
            pieces.add(new Piece(signal, signal + (one.at() - at) / pace));
            signal = one.signalAt();
            at = one.until();
        }
        pieces.add(new Piece(signal, signal + Math.max(0, trace.until() - at) / pace));
        return pieces;
    }

    private boolean restarts(SignalBreak one, Piece before) {
        double beginning = BEGINNING_S * line.format().sampleRateHz();
        return one.back() > 0 && one.signalAt() < beginning && before.end() > 2 * beginning;
    }

    /**
     * Whether the signal later jumps to where it left off before a break, or to where it would be by then, before it has come there by
     * itself: then old audio was written there, and nobody played the signal again.
     */
    private boolean resumes(int at, List<Piece> pieces) {
        double left = pieces.get(at).end();
        long from = trace.breaks().get(at).at();
        for (int i = at + 1; i < trace.breaks().size() && pieces.get(i).end() < left - near; i++) {
            SignalBreak jump = trace.breaks().get(i);
            if (jump.signalAt() > left - near && jump.signalAt() < left + (jump.until() - from) + near) {
                return true;
            }
        }
        return false;
    }

    /** @param pass first piece since the signal was started */
    private void tell(SignalBreak one, List<Piece> pieces, int pass, int i) {
        Piece before = pieces.get(i);
        Piece after = pieces.get(i + 1);
        double between = one.until() - one.at();
        if (one.missing() > near) {
            double gap = after.begin() - before.end();
            double elsewhere = covered(before.end(), after.begin(), pieces.subList(pass, pieces.size()));
            boolean later = covered(before.end(), after.begin(), pieces.subList(i + 1, pieces.size())) > near;
            if (gap - elsewhere > (elsewhere > chance ? chance : near)) {
                if (Math.abs(one.skipped()) > near) {
                    add(FindingKind.SIGNAL_MISSING, Weight.FAULT, one, gap - elsewhere);
                } else {
                    spoilt(one);
                }
            } else if (later) {
                moved.add(new Piece(before.end() - near, after.begin() + near));
                add(FindingKind.SIGNAL_MOVED, Weight.FAULT, one, gap);
            }
        } else if (one.back() > near) {
            double again = covered(after.begin(), after.end(), pieces.subList(pass, i + 1));
            if (again > (one.back() > chance ? chance : near)) {
                add(FindingKind.SIGNAL_REPEATED, Weight.FAULT, one, again);
            } else if (moved.stream().noneMatch(gap -> gap.begin() <= after.begin() && after.begin() <= gap.end())) {
                add(FindingKind.SIGNAL_MOVED, Weight.FAULT, one, after.end() - after.begin());
            }
        } else if (between > near) {
            add(FindingKind.SIGNAL_PAUSED, Weight.LISTEN, one, between);
        }
    }

    private void spoilt(SignalBreak one) {
        double between = one.until() - one.at();
        found.add(
                trace.bent()
                        ? found(FindingKind.SIGNAL_SPOILT, Weight.LISTEN, one, between)
                                .with(FindingText.BENT)
                        : found(FindingKind.SIGNAL_SPOILT, Weight.FAULT, one, between));
    }

    /** How much of a stretch of the signal lies in some pieces. */
    private static double covered(double begin, double end, List<Piece> pieces) {
        double covered = 0;
        double reached = begin;
        for (Piece piece :
                pieces.stream().sorted(Comparator.comparingDouble(Piece::begin)).toList()) {
            double from = Math.max(reached, piece.begin());
            double until = Math.min(end, piece.end());
            if (until > from) {
                covered += until - from;
                reached = until;
            }
        }
        return covered;
    }

    private void add(FindingKind kind, Weight weight, SignalBreak one, double samples) {
        found.add(found(kind, weight, one, samples));
    }

    private Found found(FindingKind kind, Weight weight, SignalBreak one, double samples) {
        return Found.at(
                kind,
                weight,
                track.name(),
                line.place(one.at()),
                trace.exact() ? Math.rint(samples) : samples,
                one.exact());
    }
}

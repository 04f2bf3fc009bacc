package tracksoak.bench.inspect;

import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.SignalFacts;

/** What findings mean: FAIL for a fault, NO VERDICT where a person must listen, else PASS. Pure. */
final class InspectionJudge {

    private static final int MOST_REASONS = 20;
    private static final Set<FindingKind> HEADERS =
            EnumSet.of(FindingKind.HEADER_UNFINISHED, FindingKind.AUDIO_BEHIND, FindingKind.HEADER_CUT);

    private final List<InspectedTake> takes;
    private final List<Finding> findings;

    InspectionJudge(List<InspectedTake> takes, List<Finding> findings) {
        this.takes = takes;
        this.findings = findings;
    }

    private List<Finding> weighing(Finding.Weight weight) {
        return findings.stream().filter(one -> one.weight() == weight).toList();
    }

    Verdict.Outcome outcome() {
        return !weighing(Finding.Weight.FAULT).isEmpty()
                ? Verdict.Outcome.FAIL
                : weighing(Finding.Weight.LISTEN).isEmpty() ? Verdict.Outcome.PASS : Verdict.Outcome.NO_VERDICT;
    }

    String sentence() {
        List<Finding> faults = weighing(Finding.Weight.FAULT);
        if (!faults.isEmpty()) {
            return faults.get(0).sentence()
                    + (faults.size() == 1 ? "" : " " + Count.number(faults.size()) + " things are wrong in all.");
        }
        List<Finding> doubts = weighing(Finding.Weight.LISTEN);
        if (onlyNotLookedAt(doubts)) {
            return takes.isEmpty()
                    ? "No recording could be looked into."
                    : nothingMissing() + ", but not all was looked into.";
        }
        if (!doubts.isEmpty()) {
            return "Nothing is certainly missing, but " + Count.of(doubts.size(), "thing") + " only a person can tell.";
        }
        return nothingMissing() + ".";
    }

    private String nothingMissing() {
        return "Nothing is missing from " + Count.of(tracks().size(), "track") + " of " + length();
    }

    private static boolean onlyNotLookedAt(List<Finding> doubts) {
        return !doubts.isEmpty() && doubts.stream().allMatch(one -> one.kind() == FindingKind.NOT_LOOKED_AT);
    }

    List<String> reasons() {
        return outcome() == Verdict.Outcome.NO_VERDICT
                ? weighing(Finding.Weight.LISTEN).stream()
                        .limit(MOST_REASONS)
                        .map(Finding::sentence)
                        .toList()
                : List.of();
    }

    private List<InspectedTrack> tracks() {
        return takes.stream().flatMap(take -> take.tracks().stream()).toList();
    }

    private String length() {
        double seconds = takes.stream().mapToDouble(InspectedTake::seconds).sum();
        return Units.seconds(seconds) + (takes.size() > 1 ? " in " + takes.size() + " takes" : "");
    }

    String scope(long bytesRead) {
        List<InspectedTrack> tracks = tracks();
        long files = takes.stream().mapToLong(take -> take.files().size()).sum();
        String all = Count.of(takes.size(), "take") + ", " + Count.of(tracks.size(), "track") + ", "
                + Count.of(files, "file") + ", " + Units.bytes(bytesRead) + " of samples read. ";
        List<SignalFacts> signals = tracks.stream()
                .map(InspectedTrack::signal)
                .filter(Objects::nonNull)
                .toList();
        if (signals.isEmpty()) {
            return all
                    + "Without a test signal only headers, lengths, times and stretches of zeros or repeats can be looked"
                    + " at: a piece that is missing from all tracks alike would not show.";
        }
        long exact = signals.stream().filter(SignalFacts::exact).count();
        double shortest = signals.stream()
                .mapToDouble(one -> one.untilS() - one.fromS())
                .min()
                .orElse(0);
        return all + "The test signal was followed on "
                + (signals.size() == tracks.size() ? "every track" : Count.of(signals.size(), "track")) + " for "
                + Units.seconds(shortest) + " or more: "
                + (exact == signals.size()
                        ? "to the sample."
                        : exact == 0
                                ? "to the millisecond."
                                : "to the sample on " + exact + " of them, to the millisecond on the others.");
    }

    String advice() {
        return switch (outcome()) {
            case PASS ->
                tracks().stream().anyMatch(track -> track.signal() != null)
                        ? "Recorder, port, cable and drive carried this recording. They have shown it for this length and this"
                                + " many tracks, not for more."
                        : "Copy it to two places before the drive is used again. To prove recorder and drive to the sample,"
                                + " record the test signal: tracksoak signal makes it.";
            case FAIL ->
                weighing(Finding.Weight.FAULT).stream().allMatch(one -> HEADERS.contains(one.kind()))
                        ? "Copy the files to another drive first, then repair the headers of the copies. Do not let this recorder"
                                + " lose power, or its drive, while it records."
                        : "Copy everything to another drive now, and keep this one as it is. Do not trust recorder and drive"
                                + " together until the drive has passed: tracksoak qualify tests it.";
            case NO_VERDICT ->
                onlyNotLookedAt(weighing(Finding.Weight.LISTEN))
                        ? "Have what is listed below looked into as well: a track may lie there."
                        : "Look at and listen to what is listed below. To leave nothing to the ear, record the test"
                                + " signal: tracksoak signal makes it.";
        };
    }
}

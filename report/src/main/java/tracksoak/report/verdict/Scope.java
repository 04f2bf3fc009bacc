package tracksoak.report.verdict;

import java.util.List;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseFacts;

/** What a verdict covers, in words. */
final class Scope {

    private Scope() {}

    private static String played(Evidence e) {
        PhaseFacts playback = e.playback;
        return playback == null ? ", no take" : " with a playback of " + Units.seconds(playback.seconds());
    }

    static String of(Evidence e) {
        String plan = e.run.plan().name() + (e.run.plan().shortened() ? " (shortened)" : "");
        double seconds =
                e.run.phases().stream().mapToDouble(PhaseFacts::seconds).sum();
        long written = e.written().mapToLong(PhaseFacts::bytes).sum();
        List<String> takes =
                e.takes.stream().map(take -> Units.seconds(take.seconds())).toList();
        Long whole = e.run.drive().fileSystemBytes();
        Covered covered = Covered.of(e);
        String part = covered != null
                ? "; the whole free space but the reserve filled and read back: " + covered.words()
                : whole == null || whole <= 0
                        ? ""
                        : ", " + Units.percent(Math.min(1, written / (double) whole)) + " of the drive's "
                                + Units.bytes(whole);
        return plan + ": " + Units.seconds(seconds) + " observed"
                + (takes.isEmpty() ? played(e) : " with takes of " + String.join(" and ", takes)) + "; "
                + Units.bytes(written) + " written" + part
                + "; on this port and this computer, in the state the drive was in.";
    }
}

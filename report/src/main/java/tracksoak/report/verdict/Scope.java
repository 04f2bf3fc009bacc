package tracksoak.report.verdict;

import java.util.List;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseFacts;

/** What a verdict covers, in words. */
final class Scope {

    private Scope() {}

    private static String played(JudgedRun run) {
        PhaseFacts playback = run.playback;
        return playback == null ? ", no take" : " with a playback of " + Units.seconds(playback.seconds());
    }

    static String of(JudgedRun run) {
        String plan = run.record.plan().name() + (run.record.plan().shortened() ? " (shortened)" : "");
        double seconds =
                run.record.phases().stream().mapToDouble(PhaseFacts::seconds).sum();
        long written = run.written().mapToLong(PhaseFacts::bytes).sum();
        List<String> takes =
                run.takes.stream().map(take -> Units.seconds(take.seconds())).toList();
        Long whole = run.record.drive().fileSystemBytes();
        Covered covered = Covered.of(run);
        String part = covered != null
                ? "; the whole free space but the reserve filled and read back: " + covered.words()
                : whole == null || whole <= 0
                        ? ""
                        // what a fill wrote is deleted, and may be written over
                        : (run.fill == null ? ", " : ", at most ")
                                + Units.percent(Math.min(1, written / (double) whole)) + " of the drive's "
                                + Units.bytes(whole);
        return plan + ": " + Units.seconds(seconds) + " observed"
                + (takes.isEmpty() ? played(run) : " with takes of " + String.join(" and ", takes)) + "; "
                + Units.bytes(written) + " written" + part
                + "; on this port and this computer, as full and as old as the drive was then.";
    }
}

package tracksoak.report.page;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;

/** What to do now, in one line, from the verdict and the criteria that were missed. Stateless. */
public final class Advice {

    private static final Set<String> SPEED = Set.of("lost-audio", "buffer-margin", "rate-margin", "longest-stall");

    private Advice() {}

    /** The advice for a run with this verdict. */
    public static String of(RunRecord record, Verdict verdict) {
        if (record.method().ioMode() == IoMode.SIMULATED) {
            return "This drive is simulated, so there is nothing to pack or to leave at home. Now test a real one:"
                    + " tracksoak drives lists those that are plugged in.";
        }
        return switch (verdict.outcome()) {
            case PASS -> pass(record);
            case FAIL -> fail(verdict.criteria());
            case NO_VERDICT -> "Treat the drive as untested. Put right what is listed below, then run the test again.";
        };
    }

    private static String pass(RunRecord record) {
        if (record.plan().name().equals("line-check")) {
            return "Nothing is obviously wrong, but the drive is not trusted yet: run a sound-check before the show.";
        }
        if (record.plan().shortened()) {
            return "Not trusted yet: run the plan " + Shown.clean(record.plan().name())
                    + " at its full length before the show.";
        }
        return "Pack it for this session, with the same cable and on the same kind of port. Empty it, eject it, and write this"
                + " run on its label.";
    }

    private static String fail(List<Criterion> criteria) {
        Set<String> missed = criteria.stream()
                .filter(criterion -> Boolean.FALSE.equals(criterion.met()))
                .map(Criterion::id)
                .collect(Collectors.toSet());
        if (missed.contains("intact")) {
            return "Leave it at home and take it out of the bag for good: it does not give back what was written.";
        }
        if (missed.contains("port") && missed.stream().anyMatch(SPEED::contains)) {
            return "Leave it at home for now: try a faster port and another cable, then run the test again.";
        }
        if (missed.stream().anyMatch(SPEED::contains)) {
            return "Leave it at home for this session. It may still carry a smaller one: judge this record again for it.";
        }
        if (missed.contains("port")) {
            return "Move it to a faster port, then run the test again.";
        }
        if (missed.contains("room")) {
            return "Free room on it or take a larger drive, then run the test again.";
        }
        if (missed.contains("format")) {
            return "Copy what it holds elsewhere, format it as the session asks, then run the test again.";
        }
        if (missed.contains("close-time")) {
            return "Leave it at home for this session, unless you can wait that long after every stop before you unplug.";
        }
        return "Leave it at home for this session.";
    }
}

package tracksoak.report.page;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.FreeRoom;

/** What to do now, in one line, from the verdict and the criteria that were missed. Stateless. */
public final class Advice {

    private static final Set<CriterionId> SPEED = EnumSet.of(
            CriterionId.LOST_AUDIO, CriterionId.BUFFER_MARGIN, CriterionId.RATE_MARGIN, CriterionId.LONGEST_STALL);

    private Advice() {}

    /** The advice for a run with this verdict. */
    public static String of(RunRecord record, Verdict verdict) {
        if (record.method().ioMode() == IoMode.SIMULATED) {
            return "This drive is simulated: nothing to pack and nothing to leave at home. To test a real one, plug it"
                    + " in and choose it among the drives (tracksoak drives).";
        }
        return switch (verdict.outcome()) {
            case PASS -> pass(record);
            case FAIL -> broken(record).orElseGet(() -> fail(record, verdict.criteria()));
            case NO_VERDICT -> "Treat the drive as untested. Put right what is listed below, then run the test again.";
        };
    }

    private static String pass(RunRecord record) {
        if (record.plan().is(PlanName.LINE_CHECK)) {
            return "Nothing is obviously wrong, but the drive is not trusted yet: run a sound-check before the show.";
        }
        if (record.plan().shortened()) {
            return "Not trusted yet: run the plan " + Shown.clean(record.plan().name())
                    + " at its full length before the show.";
        }
        return "Pack it for this session, with the same cable and on the same kind of port. Empty it, eject it, and"
                + " write this run on its label.";
    }

    /** A drive that stopped working in the test carries no session, however small. */
    private static Optional<String> broken(RunRecord record) {
        return record.phases().stream()
                .flatMap(
                        phase -> Stream.ofNullable(phase.fault()).flatMap(fault -> stopped(fault, phase.unansweredS())))
                .findFirst();
    }

    private static Stream<String> stopped(Fault fault, double unansweredS) {
        return switch (fault.kind()) {
            case HUNG -> Stream.of("Leave it at home and take it out of the bag: it stopped answering.");
            case GONE ->
                Stream.of("Leave it at home: it vanished during the test. Try another cable and port once; if it"
                        + " vanishes again, take it out of the bag for good.");
            case READ_ONLY ->
                Stream.of("Leave it at home and take it out of the bag: it became read-only, as worn-out drives"
                        + " do.");
            case IO_ERROR -> Stream.of("Leave it at home and take it out of the bag: reading or writing it failed.");
            case UNANSWERED ->
                Stream.of("Leave it at home until it has come through a whole run: it had not answered for "
                        + Units.seconds(unansweredS) + " when you stopped this one.");
            case NO_SPACE, NO_ENTRIES, TOO_LARGE, QUOTA, INTERRUPTED, INTERNAL -> Stream.empty();
        };
    }

    private static String fail(RunRecord record, List<Criterion> criteria) {
        Set<CriterionId> missed = criteria.stream()
                .filter(Criterion::missed)
                .flatMap(criterion -> CriterionId.of(criterion.id()).stream())
                .collect(Collectors.toSet());
        if (missed.contains(CriterionId.INTACT)) {
            return "Leave it at home and take it out of the bag for good: it does not give back what was written.";
        }
        if (missed.contains(CriterionId.PORT) && missed.stream().anyMatch(SPEED::contains)) {
            return "Leave it at home for now: try a faster port and another cable, then run the test again.";
        }
        if (missed.stream().anyMatch(SPEED::contains)) {
            return "Leave it at home for this session. It may still carry a smaller one: tracksoak report, with"
                    + " another --session, says so without a new test.";
        }
        if (missed.contains(CriterionId.PORT)) {
            return "Move it to a faster port, then run the test again.";
        }
        if (missed.contains(CriterionId.ROOM)) {
            return FreeRoom.fitsEmpty(record.session(), record.drive())
                    ? "Free room on it or take a larger drive, then run the test again."
                    : "Leave it at home for this session and take a larger drive.";
        }
        if (missed.contains(CriterionId.FORMAT)) {
            return "Copy what it holds elsewhere, format it as the session asks, then run the test again.";
        }
        if (missed.contains(CriterionId.CLOSE_TIME)) {
            return "Leave it at home for this session, unless you can wait that long after every stop before you"
                    + " unplug.";
        }
        return "Leave it at home for this session.";
    }
}

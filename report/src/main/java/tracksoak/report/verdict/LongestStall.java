package tracksoak.report.verdict;

import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Stall;

/**
 * No interval at the session's pace in which a chunk was ready and none got done may be longer than the session allows. What
 * the drive pauses for flat out is a threat that the takes settle.
 */
final class LongestStall implements Rule {

    private static final Threat.Kind[] PAUSES = {
        Threat.Kind.PAUSE, Threat.Kind.FALTER, Threat.Kind.READ_PAUSE,
    };

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().longestStallMs();
        double watched = run.record.session().stallLimitMs();
        FindingDraft draft = new FindingDraft(CriterionId.LONGEST_STALL, "at most " + Units.ms(need), need, "ms");
        if (run.paced.isEmpty()) {
            return draft.open("Not tested: the run made no " + (run.plays() ? "playback." : "take."));
        }
        if (run.paced.stream().anyMatch(LongestStall::neverEnded)) {
            return draft.measured("without an end", null).missed("The drive stopped answering: that pause has no end.");
        }
        draft.spoilt(run.slept(run.paced.stream()));
        double longest =
                run.paced.stream().mapToDouble(LongestStall::longest).max().orElse(0);
        Blame blame = run.paced.stream().map(p -> blame(p, run, need)).reduce(Blame.NOBODY, Blame::worse);
        if (longest == 0) {
            draft.measured("none above " + Units.ms(watched), null);
            if (watched > need) {
                return draft.openForGood("Not tested: the run only noted stalls above " + Units.ms(watched) + ", and "
                        + Units.ms(need) + " is needed. Run again with this session.");
            }
        } else {
            draft.measured(Units.ms(longest), longest).margin(need / longest);
        }
        String met = longest == 0
                ? "The drive never paused for more than " + Units.ms(watched) + "."
                : "The longest pause of the drive was " + Units.ms(longest) + ".";
        if (blame == Blame.NOBODY && run.carry.passes()) {
            String threat = OpenThreats.of(run, PAUSES);
            if (threat != null) {
                return draft.open(threat + " So far: " + met);
            }
            met = (met + " " + OpenThreats.settled(run, PAUSES)).strip();
            draft.note(OpenThreats.settled(run, Threat.Kind.SLOW));
        }
        return draft.judged(
                blame,
                run.carry,
                run.pacedDone(),
                met,
                "The drive paused for " + Units.ms(longest) + ", and " + Units.ms(need) + " is the most allowed.");
    }

    private static Blame blame(PhaseFacts take, JudgedRun run, double need) {
        boolean missed = take.stalls().stream().anyMatch(stall -> stall.ms() > need);
        // a pause is the time of few calls, and the way there costs each of them about the same
        double share = Blame.deviceShare(take, run.ioMode());
        return Blame.of(
                take,
                run,
                missed,
                ms -> take.stalls().stream()
                        .anyMatch(stall -> stall.ms() - Blame.hostMs(take, stall.hostMs()) - ms > need),
                take.stalls().stream().anyMatch(stall -> stall.ms() * share > need));
    }

    /** A drive that does not answer while the computer is awake pauses for good, and no chunk gets done that would end it. */
    private static boolean neverEnded(PhaseFacts phase) {
        Fault fault = phase.fault();
        return fault != null && fault.kind() == Fault.Kind.HUNG && !Blame.slept(phase.hostDelays());
    }

    private static double longest(PhaseFacts phase) {
        return phase.stalls().stream().mapToDouble(Stall::ms).max().orElse(0);
    }
}

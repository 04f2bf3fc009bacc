package tracksoak.report.verdict;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Stall;

/**
 * No interval in which a chunk was ready and none got done may be longer than the session allows. A drive filled flat out
 * may pause for longer, as it has more to tidy then; but not over a whole window of the floor.
 */
final class LongestStall implements Rule {

    /** Of a fill that did not come far enough to find a floor. */
    private static final double FLOOR_WINDOW_S = 10;

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().longestStallMs();
        double watched = run.record.session().stallLimitMs();
        FindingDraft draft = new FindingDraft(CriterionId.LONGEST_STALL, "at most " + Units.ms(need), need, "ms");
        if (run.paced.isEmpty()) {
            return draft.open("Not tested: the run made no " + (run.plays() ? "playback." : "take."));
        }
        draft.spoilt(run.slept(run.paced.stream()));
        double paced =
                run.paced.stream().mapToDouble(LongestStall::longest).max().orElse(0);
        Blame blame = run.paced.stream().map(p -> blame(p, run, need)).reduce(Blame.NOBODY, Blame::worse);
        double dead = inFill(draft, run);
        double longest = Math.max(paced, dead);
        if (dead > 0) {
            blame = blame.worse(blame(Objects.requireNonNull(run.fill), run, Math.max(need, deadMs(run.fill))));
        }
        if (longest == 0) {
            draft.measured("none above " + Units.ms(watched), null);
            if (watched > need) {
                return draft.openForGood("Not tested: the run only noted stalls above " + Units.ms(watched) + ", and "
                        + Units.ms(need) + " is needed. Run again with this session.");
            }
        } else {
            draft.measured(Units.ms(longest), longest).margin(need / longest);
        }
        return draft.judged(
                blame,
                run.carry,
                run.pacedDone(),
                longest == 0
                        ? "The drive never paused for more than " + Units.ms(watched) + "."
                        : "The longest pause of the drive was " + Units.ms(longest) + ".",
                "The drive paused for " + Units.ms(longest)
                        + (dead > paced ? " while it was filled" : "") + ", and " + Units.ms(need)
                        + " is the most allowed.");
    }

    private static Blame blame(PhaseFacts take, JudgedRun run, double need) {
        boolean missed = take.stalls().stream().anyMatch(stall -> stall.ms() > need);
        boolean withoutHost = take.stalls().stream().anyMatch(stall -> stall.ms() - stall.hostMs() > need);
        return Blame.of(take, run.ioMode(), missed, withoutHost);
    }

    private static double longest(PhaseFacts phase) {
        return phase.stalls().stream().mapToDouble(Stall::ms).max().orElse(0);
    }

    /** The longest pause of the fill if it counts, in ms; a shorter one, or one of the host's, is noted and 0 returned. */
    private static double inFill(FindingDraft draft, JudgedRun run) {
        PhaseFacts fill = run.fill;
        double pause = fill == null ? 0 : longest(fill);
        if (fill != null
                && !Blame.slept(fill.hostDelays())
                && fill.stalls().stream().anyMatch(stall -> stall.ms() - stall.hostMs() > deadMs(fill))) {
            return pause;
        }
        if (pause > 0) {
            draft.note("While it was filled flat out the drive paused for up to " + Units.ms(pause)
                    + (pause > run.bufferMs() ? ", longer than the recorder's buffer" : "")
                    + "; that is not held against it, as at the session's own pace it has less to tidy.");
        }
        return 0;
    }

    private static double deadMs(@Nullable PhaseFacts fill) {
        FillFacts found = fill == null ? null : fill.fill();
        return (found == null ? FLOOR_WINDOW_S : found.floorWindowS()) * 1000;
    }
}

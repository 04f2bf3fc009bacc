package tracksoak.report.verdict;

import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;

/** How much faster than it was played a show is copied on: mean rate behind a fast cache ÷ demand; and how long the whole show then takes. */
final class CopyRate {

    private CopyRate() {}

    static Finding judge(FindingDraft draft, JudgedRun run, double need) {
        PhaseFacts copy = run.copy;
        FillFacts found = copy == null ? null : copy.fill();
        if (copy == null || found == null || copy.bytes() == 0) {
            return draft.open("Not tested: nothing was copied.");
        }
        FlatRate flat = FlatRate.of(copy, found, Double.POSITIVE_INFINITY);
        double have = flat.bytesPerSecond() / run.bytesPerSecond();
        draft.measured(Units.factor(have), Math.min(have, 1000)).margin(have).spoilt(run.slept(Stream.of(copy)));
        String words = words(run, copy, found, flat);
        Blame blame = Blame.of(
                copy,
                run,
                have < need,
                ms -> flat.withoutHost(ms) / run.bytesPerSecond() < need,
                have / Blame.deviceShare(copy, run.ioMode()) < need);
        String lacking = lacking(run, copy, found);
        if (blame == Blame.NOBODY && lacking != null) {
            boolean brief = run.record.plan().shortened() || run.record.plan().is(PlanName.LINE_CHECK);
            if (!brief || found.ended() == Ended.CUT_SHORT) {
                return draft.open(lacking + " So far: " + words);
            }
            draft.note(lacking + " The rate margin is judged on that part.");
        }
        return draft.judged(
                blame, run.carry, copy.complete(), words, words + " At least " + Units.factor(need) + " is needed.");
    }

    private static String words(JudgedRun run, PhaseFacts copy, FillFacts found, FlatRate flat) {
        double rate = Math.max(1, flat.bytesPerSecond());
        return Units.bytes(copy.bytes()) + " were copied on in " + Units.seconds(copy.seconds())
                + ", at " + Units.rate(flat.bytesPerSecond())
                + (flat.behindCliff() ? " on average once the drive's fast cache was full, " : " on average, ")
                + Units.factor(flat.bytesPerSecond() / run.bytesPerSecond()) + " the rate it plays at, and at "
                + Units.rate(found.floorBytesPerSecond()) + " in the slowest " + Units.seconds(found.floorWindowS())
                + ". At that mean, copying a show of " + Units.bytes(run.demand.dataBytes()) + " takes about "
                + Units.seconds(run.demand.dataBytes() / rate) + ".";
    }

    /** Why the copy does not show enough for the whole show, null if it does. */
    private static @Nullable String lacking(JudgedRun run, PhaseFacts copy, FillFacts found) {
        if (copy.bytes() >= run.demand.dataBytes()) {
            return null;
        }
        return "Only " + Units.bytes(copy.bytes()) + " of the show's " + Units.bytes(run.demand.dataBytes())
                + " were copied on"
                + (found.ended() == Ended.CAP ? ", as the time allowed ran out." : ".");
    }
}

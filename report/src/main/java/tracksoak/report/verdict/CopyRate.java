package tracksoak.report.verdict;

import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;

/** How much faster than it was played a show is copied on: floor ÷ demand; and how long the whole show then takes. */
final class CopyRate {

    private CopyRate() {}

    static Finding judge(FindingDraft draft, JudgedRun run, double need) {
        PhaseFacts copy = run.copy;
        FillFacts found = copy == null ? null : copy.fill();
        if (copy == null || found == null || copy.bytes() == 0) {
            return draft.open("Not tested: nothing was copied.");
        }
        double floor = found.floorBytesPerSecond();
        double have = floor / run.bytesPerSecond();
        draft.measured(Units.factor(have), Math.min(have, 1000)).margin(have).spoilt(run.slept(Stream.of(copy)));
        String words = words(run, copy, found, have);
        Blame blame = Blame.of(copy, run.ioMode(), have < need, have * FillHost.gain(copy, found) < need);
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

    private static String words(JudgedRun run, PhaseFacts copy, FillFacts found, double have) {
        double floor = Math.max(1, found.floorBytesPerSecond());
        return Units.bytes(copy.bytes()) + " were copied on in " + Units.seconds(copy.seconds())
                + ", never slower than "
                + Units.rate(found.floorBytesPerSecond()) + " over " + Units.seconds(found.floorWindowS()) + ", "
                + Units.factor(have) + " the rate it plays at. At that floor, copying a show of "
                + Units.bytes(run.demand.dataBytes()) + " takes no more than "
                + Units.seconds(run.demand.dataBytes() / floor) + ".";
    }

    /** Why the copy does not show enough for the whole show, null if it does. */
    private static @Nullable String lacking(JudgedRun run, PhaseFacts copy, FillFacts found) {
        if (copy.bytes() >= run.demand.dataBytes() || (found.steady() && found.cliffAtBytes() != null)) {
            return null;
        }
        return "Only " + Units.bytes(copy.bytes()) + " of the show's " + Units.bytes(run.demand.dataBytes())
                + " were copied on"
                + (found.ended() == Ended.CAP ? ", as the time allowed ran out." : ".");
    }
}

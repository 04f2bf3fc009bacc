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

    static Finding judge(Draft draft, Evidence e, double need) {
        PhaseFacts copy = e.copy;
        FillFacts found = copy == null ? null : copy.fill();
        if (copy == null || found == null || copy.bytes() == 0) {
            return draft.open("Not tested: nothing was copied.");
        }
        double floor = found.floorBytesPerSecond();
        double have = floor / e.bytesPerSecond();
        draft.measured(Units.factor(have), Math.min(have, 1000)).margin(have).spoilt(e.slept(Stream.of(copy)));
        String words = words(e, copy, found, have);
        Blame blame = Blame.of(copy, e.ioMode(), have < need, have * FillHost.gain(copy, found) < need);
        String lacking = lacking(e, copy, found);
        if (blame == Blame.NOBODY && lacking != null) {
            boolean brief = e.run.plan().shortened() || e.run.plan().is(PlanName.LINE_CHECK);
            if (!brief || found.ended() == Ended.CUT_SHORT) {
                return draft.open(lacking + " So far: " + words);
            }
            draft.note(lacking + " The rate margin is judged on that part.");
        }
        return draft.judged(
                blame, e.carry, copy.complete(), words, words + " At least " + Units.factor(need) + " is needed.");
    }

    private static String words(Evidence e, PhaseFacts copy, FillFacts found, double have) {
        double floor = Math.max(1, found.floorBytesPerSecond());
        return Units.bytes(copy.bytes()) + " were copied on in " + Units.seconds(copy.seconds())
                + ", never slower than "
                + Units.rate(found.floorBytesPerSecond()) + " over " + Units.seconds(found.floorWindowS()) + ", "
                + Units.factor(have) + " the rate it plays at. At that floor, copying a show of "
                + Units.bytes(e.demand.dataBytes()) + " takes no more than "
                + Units.seconds(e.demand.dataBytes() / floor) + ".";
    }

    /** Why the copy does not show enough for the whole show, null if it does. */
    private static @Nullable String lacking(Evidence e, PhaseFacts copy, FillFacts found) {
        if (copy.bytes() >= e.demand.dataBytes() || (found.steady() && found.cliffAtBytes() != null)) {
            return null;
        }
        return "Only " + Units.bytes(copy.bytes()) + " of the show's " + Units.bytes(e.demand.dataBytes())
                + " were copied on"
                + (found.ended() == Ended.CAP ? ", as the time allowed ran out." : ".");
    }
}

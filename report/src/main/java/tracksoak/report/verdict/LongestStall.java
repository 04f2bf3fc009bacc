package tracksoak.report.verdict;

import java.util.Optional;
import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.Stall;

/** No interval in which a chunk was ready and none got done may be longer than the session allows. */
final class LongestStall implements Rule {

    @Override
    public Finding judge(Evidence e) {
        double need = e.session.margins().longestStallMs();
        double watched = e.run.session().stallLimitMs();
        Draft draft = new Draft("longest-stall", "at most " + Units.ms(need), need, "ms");
        if (e.paced.isEmpty()) {
            return draft.open("Not tested: the run made no " + (e.plays() ? "playback." : "take."));
        }
        draft.spoilt(e.slept(e.paced.stream()));
        double longest = longest(e);
        Blame blame = e.paced.stream().map(p -> blame(p, e, need)).reduce(Blame.NOBODY, Blame::worse);
        if (longest == 0) {
            draft.measured("none above " + Units.ms(watched), null);
            if (watched > need) {
                return draft.open("Not tested: the run only noted stalls above " + Units.ms(watched) + ", and "
                        + Units.ms(need) + " is asked. Run again with this session.");
            }
        } else {
            draft.measured(Units.ms(longest), longest).margin(need / longest);
        }
        fillNote(draft, e);
        return draft.judged(
                blame,
                e.carry,
                e.pacedDone(),
                longest == 0
                        ? "The drive never paused for more than " + Units.ms(watched) + "."
                        : "The longest pause of the drive was " + Units.ms(longest) + ".",
                "The drive paused for " + Units.ms(longest) + ", and " + Units.ms(need) + " is the most allowed.");
    }

    private static Blame blame(PhaseFacts take, Evidence e, double need) {
        boolean missed = take.stalls().stream().anyMatch(stall -> stall.ms() > need);
        boolean withoutHost = take.stalls().stream().anyMatch(stall -> stall.ms() - stall.hostMs() > need);
        return Blame.of(take, e.ioMode(), missed, withoutHost);
    }

    private static double longest(Evidence e) {
        return e.paced.stream()
                .flatMap(p -> p.stalls().stream())
                .mapToDouble(Stall::ms)
                .max()
                .orElse(0);
    }

    private static void fillNote(Draft draft, Evidence e) {
        PhaseFacts fill = e.fill;
        if (fill == null) {
            return;
        }
        Optional<Stall> worst = fill.stalls().stream().max((a, b) -> Double.compare(a.ms(), b.ms()));
        worst.ifPresent(stall -> draft.note("While it was filled flat out the drive paused for up to "
                + Units.ms(stall.ms()) + "; that is not held against it."));
    }
}

package tracksoak.report.verdict;

import java.util.stream.Stream;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseFacts;

/** How much faster than the session the drive could have gone while all tracks were played: 1 ÷ busy fraction. */
final class PlayingRate {

    private PlayingRate() {}

    static Finding judge(FindingDraft draft, JudgedRun run, double need) {
        PhaseFacts phase = run.playback;
        if (phase == null) {
            return draft.open("Not tested: the run made no playback.");
        }
        double have = RateMargin.inverse(RateMargin.busy(phase));
        draft.measured(Units.factor(have), Math.min(have, 1000)).margin(have).spoilt(run.slept(Stream.of(phase)));
        String words = "While all tracks were played the drive was busy " + Units.percent(RateMargin.busy(phase))
                + " of the time, a margin of " + Units.factor(have) + ".";
        return draft.judged(
                RateMargin.blame(phase, run, need),
                run.carry,
                phase.complete(),
                words,
                words + " At least " + Units.factor(need) + " is needed.");
    }
}

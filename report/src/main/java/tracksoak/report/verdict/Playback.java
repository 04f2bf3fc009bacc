package tracksoak.report.verdict;

import java.util.stream.Stream;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;

/** All tracks read back at once without a gap. */
final class Playback implements Rule {

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().playback();
        FindingDraft draft = new FindingDraft(CriterionId.PLAYBACK, "at least " + Units.factor(need), need, "×");
        PhaseFacts phase = run.playback;
        if (phase == null) {
            return run.plays()
                    ? draft.open("Playback was not tested, and this session is about playing back.")
                    : draft.untested("Playback was not tested.");
        }
        if (LostAudio.stopped(phase)) {
            return draft.measured("stopped", null).missed("The drive stopped answering during playback.");
        }
        if (phase.bytes() == 0) {
            return draft.open("Not tested: all that was to be played fitted the player's buffer. Play for longer.");
        }
        PlaybackFacts facts = phase.playback();
        if (facts != null && facts.fromDevice() == Origin.HOST_MEMORY) {
            return draft.open("The computer gave the tracks from its own memory, so the drive was not asked:"
                    + " unplug it, plug it in again and run again.");
        }
        if (facts != null && facts.fromDevice() == Origin.UNKNOWN && run.ioMode() == IoMode.WRITE_THROUGH) {
            return draft.open("Nothing shows that the tracks came from the drive and not from the computer's memory:"
                    + " use a file system that allows direct access, or another computer.");
        }
        double have = phase.peakBacklogMs() > 0 ? run.bufferMs() / phase.peakBacklogMs() : Double.POSITIVE_INFINITY;
        have = phase.lostMs() > 0 ? Math.min(have, 1) : have;
        double detourMs = Blame.detourMs(phase, run.ioMode());
        boolean gaps = phase.lostMs() > 0;
        draft.measured(gaps ? Units.ms(phase.lostMs()) + " of silence" : Units.factor(have), Math.min(have, 1000))
                .margin(have)
                .spoilt(run.slept(Stream.of(phase)));
        Blame blame = Blame.of(
                phase,
                run,
                gaps || have < need,
                ms -> gaps
                        ? LostAudio.lostWithoutHost(phase, ms)
                        : run.bufferMs()
                                        / Math.max(
                                                1e-9,
                                                phase.peakBacklogMs()
                                                        - Blame.hostMs(phase, phase.peakBacklogHostMs())
                                                        - ms)
                                < need,
                gaps
                        ? phase.lostMs() > detourMs
                        : run.bufferMs() / Math.max(1e-9, phase.peakBacklogMs() - detourMs) < need);
        return draft.judged(
                blame,
                run.carry,
                phase.complete() && run.playedEnough(),
                "All tracks were played for " + Units.seconds(phase.seconds()) + " with " + Units.factor(have)
                        + " in hand.",
                gaps
                        ? "A track fell silent: " + Units.ms(phase.lostMs())
                                + (phase.tracksHit() == 1 ? "." : " on the worst of " + phase.tracksHit() + " tracks.")
                        : "Playback had " + Units.factor(have) + " in hand, and " + Units.factor(need) + " is needed.");
    }
}

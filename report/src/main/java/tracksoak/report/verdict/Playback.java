package tracksoak.report.verdict;

import tracksoak.profiles.SessionKind;
import tracksoak.report.record.PhaseFacts;

/** All tracks read back at once without a gap. */
final class Playback implements Rule {

    @Override
    public Finding judge(Evidence e) {
        double need = e.session.margins().playback();
        Draft draft = new Draft("playback", "at least " + Units.factor(need), need, "×");
        PhaseFacts phase = e.playback;
        if (phase == null) {
            boolean asked = e.session.kind() == SessionKind.PLAYBACK || e.session.kind() == SessionKind.MIXDOWN;
            return asked
                    ? draft.open("Playback was not tested, and this session is about playing back.")
                    : draft.untested("Playback was not tested.");
        }
        if (LostAudio.stopped(phase)) {
            return draft.measured("stopped", null).missed("The drive stopped answering during playback.");
        }
        double have = phase.peakBacklogMs() > 0 ? e.bufferMs() / phase.peakBacklogMs() : Double.POSITIVE_INFINITY;
        have = phase.lostMs() > 0 ? Math.min(have, 1) : have;
        double without = e.bufferMs() / Math.max(1e-9, phase.peakBacklogMs() - phase.peakBacklogHostMs());
        boolean gaps = phase.lostMs() > 0;
        draft.measured(gaps ? Units.ms(phase.lostMs()) + " of gaps" : Units.factor(have), Math.min(have, 1000))
                .margin(have);
        Blame blame = Blame.of(
                phase, e.ioMode(), gaps || have < need, gaps ? LostAudio.lostWithoutHost(phase) : without < need);
        return draft.judged(
                blame,
                e.carry,
                phase.complete(),
                "All tracks played back with " + Units.factor(have) + " in hand.",
                gaps
                        ? "Playback had gaps of " + Units.ms(phase.lostMs()) + " on the worst track."
                        : "Playback had " + Units.factor(have) + " in hand, and " + Units.factor(need) + " is asked.");
    }
}

package tracksoak.report.verdict;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlaybackFacts;

/** The mix that a mixdown wrote while all tracks were read. */
record MixBooks(PhaseFacts phase, MixFacts mix) {

    /** The mix of a run, or null if it wrote none. */
    static @Nullable MixBooks of(JudgedRun run) {
        PhaseFacts phase = run.playback;
        PlaybackFacts facts = phase == null ? null : phase.playback();
        MixFacts mix = facts == null ? null : facts.mix();
        return phase == null || mix == null ? null : new MixBooks(phase, mix);
    }

    /** Whether audio is lost even if every delay of the host inside the overruns, and so many ms more, had not been. */
    boolean lostWithoutHost(double ms) {
        return LostAudio.lostWithoutHost(phase, mix.overruns(), mix.lostMs(), ms);
    }
}

package tracksoak.bench.phase.timeleft;

import tracksoak.report.record.facts.PhaseKind;

/**
 * How a run is getting on, for people to look at.
 *
 * @param phase what is being done
 * @param step 1-based place of the phase in the plan
 * @param steps phases in the plan
 * @param elapsedS since the phase began, in s
 * @param leftS until the whole run ends, in s, as well as can be told; negative if it cannot
 * @param phaseLeftS until this phase ends, in s; negative if it cannot be told
 * @param tracks tracks of the session
 * @param tracksCarried tracks that have lost no audio so far
 * @param backlogMs largest backlog right now, in ms of audio
 * @param worstBacklogMs largest backlog so far, in ms of audio
 * @param bufferMs the recorder's buffer, in ms of audio
 * @param worstServiceMs longest write so far, in ms
 * @param lostMs audio lost so far on the worst track, in ms
 * @param bytes written (or read) in this phase
 * @param bytesPerSecond mean rate over the last seconds, as {@link RecentRate} tells it
 * @param hostDelayMs longest delay of the computer's own in this phase so far, in ms; 0 on virtual time
 */
public record Progress(
        PhaseKind phase,
        int step,
        int steps,
        double elapsedS,
        double leftS,
        double phaseLeftS,
        int tracks,
        int tracksCarried,
        double backlogMs,
        double worstBacklogMs,
        double bufferMs,
        double worstServiceMs,
        double lostMs,
        long bytes,
        double bytesPerSecond,
        double hostDelayMs) {}

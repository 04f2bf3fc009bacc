package tracksoak.bench.replay;

import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;

/** Phases with one part exchanged. */
final class Phases {

    private Phases() {}

    static PhaseFacts withClose(PhaseFacts phase, CloseFacts close) {
        return new PhaseFacts(
                phase.kind(),
                phase.startedAt(),
                close.totalMs() / 1e3,
                phase.plannedSeconds(),
                phase.complete(),
                phase.bytes(),
                phase.operations(),
                phase.lostMs(),
                phase.lostTrackMs(),
                phase.tracksHit(),
                phase.peakBacklogMs(),
                phase.peakBacklogAtS(),
                phase.peakBacklogHostMs(),
                phase.busyFraction(),
                phase.stallCount(),
                phase.stallTotalMs(),
                phase.stalls(),
                phase.overruns(),
                phase.service(),
                phase.response(),
                phase.flush(),
                phase.series(),
                phase.streams(),
                phase.rounds(),
                phase.fill(),
                close,
                phase.readBack(),
                phase.playback(),
                phase.keepsake(),
                phase.device(),
                phase.hostDelays(),
                phase.fault());
    }
}

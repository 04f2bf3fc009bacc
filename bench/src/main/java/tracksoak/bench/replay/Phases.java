package tracksoak.bench.replay;

import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;

/** Phases with one part exchanged. */
final class Phases {

    private Phases() {}

    static PhaseFacts withClose(PhaseFacts phase, CloseFacts close) {
        return phase.but().seconds(close.totalMs() / 1e3).close(close).build();
    }
}

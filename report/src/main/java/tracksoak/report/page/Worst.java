package tracksoak.report.page;

import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** Which phase a reader must see first. */
final class Worst {

    private static final int NONE = -1;

    private Worst() {}

    /**
     * Index of the take, or else of the playback, that lost most, and among equals came closest to it; negative for none
     * with a curve.
     */
    static int phase(RunRecord record) {
        int take = of(record, PhaseKind.TAKE);
        return take == NONE ? of(record, PhaseKind.PLAYBACK) : take;
    }

    private static int of(RunRecord record, PhaseKind kind) {
        int worst = NONE;
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            if (phase.kind() == kind
                    && hasCurve(phase)
                    && (worst == NONE || worse(phase, record.phases().get(worst)))) {
                worst = i;
            }
        }
        return worst;
    }

    static boolean hasCurve(PhaseFacts phase) {
        return phase.series() != null && phase.series().length() > 0;
    }

    private static boolean worse(PhaseFacts phase, PhaseFacts than) {
        return phase.lostMs() != than.lostMs()
                ? phase.lostMs() > than.lostMs()
                : phase.peakBacklogMs() > than.peakBacklogMs();
    }
}

package tracksoak.report.page;

import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** What the phases of a run are called on the page. */
final class PhaseNames {

    private PhaseNames() {}

    static String of(RunRecord record, int index) {
        PhaseFacts phase = record.phases().get(index);
        return switch (phase.kind()) {
            case FILL -> "Fill";
            case COPY -> "Copy";
            case CLOSE -> "Close";
            case READ_BACK -> "Read-back";
            case PLAYBACK -> "Playback";
            case PROBES -> "Probes";
            case KEEPSAKE -> "Keepsake";
            case TAKE -> take(record, index);
        };
    }

    private static String take(RunRecord record, int index) {
        boolean afterFill =
                record.phases().subList(0, index).stream().anyMatch(phase -> phase.kind() == PhaseKind.FILL);
        if (afterFill) {
            return "Take after the fill";
        }
        return record.plan().fillCapS() > 0 ? "Take before the fill" : "Take";
    }
}

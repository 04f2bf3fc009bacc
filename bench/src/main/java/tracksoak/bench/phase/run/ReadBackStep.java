package tracksoak.bench.phase.run;

import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Reads back every file that was not read back yet. */
final class ReadBackStep implements Step {

    private final Bench bench;
    private final FilesOnDrive onDrive;

    ReadBackStep(Bench bench, FilesOnDrive onDrive) {
        this.bench = bench;
        this.onDrive = onDrive;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.READ_BACK;
    }

    @Override
    public double expectedS(Forecast ahead) {
        return ahead.pace.secondsToRead(ahead.readsAll());
    }

    @Override
    public PhaseFacts go() {
        PhaseFacts facts = new ReadBackPhase(bench, onDrive.unread()).read();
        onDrive.wasRead();
        return facts;
    }
}

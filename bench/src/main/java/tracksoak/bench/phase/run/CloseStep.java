package tracksoak.bench.phase.run;

import java.util.function.Supplier;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** From "stop" to "safe to unplug". */
final class CloseStep implements Step {

    private final FilesOnDrive onDrive;
    private final Supplier<StreamFiles> files;
    private final Supplier<PhaseFacts> close;

    /**
     * Closes what another step has opened.
     *
     * @param close does it
     */
    CloseStep(FilesOnDrive onDrive, Supplier<StreamFiles> files, Supplier<PhaseFacts> close) {
        this.onDrive = onDrive;
        this.files = files;
        this.close = close;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.CLOSE;
    }

    @Override
    public double expectedS(Forecast ahead) {
        return ahead.pace.closeS();
    }

    @Override
    public PhaseFacts go() {
        PhaseFacts facts = close.get();
        if (facts.fault() == null) {
            onDrive.closed(files.get());
        }
        return facts;
    }
}

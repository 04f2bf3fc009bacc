package tracksoak.bench.phase.run;

import java.util.function.Supplier;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** From "stop" to "safe to unplug". */
final class CloseStep implements Step {

    private final Stock stock;
    private final Supplier<StreamFiles> files;
    private final Supplier<PhaseFacts> close;

    /**
     * Closes what another step has opened.
     *
     * @param close does it
     */
    CloseStep(Stock stock, Supplier<StreamFiles> files, Supplier<PhaseFacts> close) {
        this.stock = stock;
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
            stock.closed(files.get());
        }
        return facts;
    }
}

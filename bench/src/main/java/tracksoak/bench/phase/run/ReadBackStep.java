package tracksoak.bench.phase.run;

import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Reads back every file that was not read back yet. */
final class ReadBackStep implements Step {

    private final Bench bench;
    private final Stock stock;

    ReadBackStep(Bench bench, Stock stock) {
        this.bench = bench;
        this.stock = stock;
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
        PhaseFacts facts = new ReadBackPhase(bench, stock.unread()).read();
        stock.wasRead();
        return facts;
    }
}

package tracksoak.bench.phase;

import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.PhaseKind;

/** Records in real time. */
final class TakeStep implements Step {

    private final Bench bench;
    private final Stock stock;
    private final TakePhase take;
    private final double seconds;

    TakeStep(Bench bench, Stock stock, TakePhase take, double seconds) {
        this.bench = bench;
        this.stock = stock;
        this.take = take;
        this.seconds = seconds;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.TAKE;
    }

    @Override
    public double expectedS(Forecast ahead) {
        ahead.leaves(Math.min(take.room(), seconds * bench.request.session().bytesPerSecond()));
        return seconds;
    }

    @Override
    public PhaseFacts go() {
        stock.opens(take.files());
        return take.take();
    }
}

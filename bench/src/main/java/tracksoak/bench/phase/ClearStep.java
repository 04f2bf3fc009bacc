package tracksoak.bench.phase;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.PhaseKind;

/** Deletes the run's own files to make room for what comes next. Leaves a phase in the record only if the drive fails. */
final class ClearStep implements Step {

    private final Bench bench;
    private final Stock stock;
    private final PhaseKind before;

    /**
     * Clears the run's folder.
     *
     * @param before what the room is made for
     */
    ClearStep(Bench bench, Stock stock, PhaseKind before) {
        this.bench = bench;
        this.stock = stock;
        this.before = before;
    }

    @Override
    public PhaseKind kind() {
        return before;
    }

    @Override
    public double expectedS(Forecast ahead) {
        return 0;
    }

    @Override
    public @Nullable PhaseFacts go() {
        long fromNs = bench.clock.nanoTime();
        Crew.Outcome cleared = bench.crew.work(
                List.of(stop -> {
                    for (WrittenFile file : stock.all()) {
                        bench.drive.delete(file.name());
                    }
                    bench.drive.syncFolder();
                }),
                () -> {});
        if (cleared.done()) {
            stock.cleared();
            return null;
        }
        Sheet sheet = bench.sheet(before);
        sheet.seconds = (bench.clock.nanoTime() - fromNs) / 1e9;
        sheet.fault = bench.fault(cleared, fromNs, 0);
        return sheet.facts();
    }
}
